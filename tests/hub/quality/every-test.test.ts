import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Finding, QualityTest, Series, Surroundings } from '../../../hub/quality/quality-test.ts'
import { NO_CONTEXT } from '../../../hub/quality/quality-test.ts'
import { QUALITY_TESTS, testNamed } from '../../../hub/quality/tests.ts'
import { longestStepMs } from '../../../hub/quality/unbroken.ts'
import { alone } from './series.ts'

const all = QUALITY_TESTS as unknown as readonly QualityTest[]
const units: Record<string, string[]> = {
  soil_ph: ['mV', 'V'],
  soil_moisture: ['count'],
  illuminance: ['count'],
  soil_temperature: ['Cel', 'count', 'Ohm'],
  wind_speed: ['Hz', 'count'],
}
const switchedOn: Record<string, Record<string, unknown>> = {
  'seasonal-span': { soil_ph: { monthlySpans: { '6': [4, 8] } } },
  'attenuated-signal': {
    soil_ph: { windowMs: 20_000, spreadIs: 'standard deviation', suspectBelow: 2, failBelow: 1 },
    illuminance: { windowMs: 20_000, spreadIs: 'range', suspectBelow: 2, failBelow: 1 },
  },
  'flat-line': {
    soil_ph: {
      compares: 'value',
      tolerance: 1,
      suspect: { repeats: 2, durationMs: 3000 },
      fail: { repeats: 5, durationMs: 0 },
      daylight: null,
    },
  },
  'rate-of-change': {
    soil_ph: { suspectPerHour: 3600, baselineMs: 3000 },
    soil_temperature: { suspectPerHour: 3600, baselineMs: 0 },
  },
  'full-scale': {
    illuminance: {
      fullScaleCounts: 65_535,
      smallerFullScaleCounts: [20, 1023],
      flatTopReadings: 2,
      nothingAboveWithinMs: 4000,
      brightAtZeroLux: 5,
    },
  },
  'thermometer-code': {
    soil_temperature: {
      noAnswerCelsius: -127,
      powerOnCelsius: 85,
      realWithinCelsius: 40,
      neighbourWithinMs: 4000,
      startedWithinMs: 2000,
    },
  },
  'ph-electrode-dry': { soil_ph: { windowMs: 12_000, creepMillivolt: 3, largestStepShare: 0.5 } },
  'cups-still': {
    wind_speed: {
      stillForMs: 3000,
      neighbourAboveMetresPerSecond: 1.5,
      neighbourWithinMs: 2000,
      neighbourWithinMetres: 50,
    },
  },
  'moisture-out-of-soil': {
    soil_moisture: {
      airAtOrBelow: 0,
      leapAtLeast: 1,
      longestLiftMs: 5000,
      lightFactor: 1.5,
      lightWithinMs: 2000,
    },
  },
  'self-heating': {
    soil_temperature: {
      afterStartMs: 10_000,
      startedWithinMs: 2000,
      neighbourWithinMs: 2000,
      fewestNeighbours: 2,
      suspectRiseCelsius: 1,
    },
  },
  'switch-bounce': {
    wind_speed: {
      impossibleHertz: 100,
      countedWithinMs: 2000,
      gustOverMean: 4,
      gustAtLeastMetresPerSecond: 2,
      windowMs: 20_000,
      fewestReadings: 3,
    },
  },
}
const subjects = all.flatMap((each) =>
  [...Object.entries(each.defaults), ...Object.entries(switchedOn[each.name] ?? {})].flatMap(
    ([quantity, config]) =>
      units[quantity]!.map((signalUnit) => ({ name: each.name, quantity, signalUnit, config, each })),
  ),
)

const START_MS = Date.UTC(2026, 5, 12, 10)
/** Says the same at every time, but for a board that started at one moment. */
const surroundings = (kind: number, restartMs: number): Surroundings =>
  kind === 0
    ? alone()
    : {
        solarElevationDegrees: () => (kind === 1 ? 40 : -20),
        sameQuadrat: () => 5000,
        sameBoardRestarted: (timeMs, withinMs) => restartMs <= timeMs && timeMs - withinMs < restartMs,
        neighbours: () => [3, 2, 2].map((value, n) => ({ quadrat: `Q${n}`, distanceMetres: n + 1, value })),
      }

/** Steps of 0 (one time twice) to 4 s at one reading a second, so that gaps happen; few levels, so that equals do. */
const reading = fc.record({
  stepMs: fc.constantFrom(0, 1000, 1000, 1000, 1000, 1500, 4000),
  value: fc.option(fc.constantFrom(-1, 0, 0, 0, 1, 2, 3, 5, 7, 12, 85), { freq: 12 }),
  signal: fc.constantFrom(-127, 0, 0, 1, 2, 4, 8, 20, 85, 120, 520, 1023, 1023, 65_535),
})
const readings = fc.array(reading, { maxLength: 60 })

function seriesFrom(
  list: { stepMs: number; value: number | null; signal: number }[],
  quantity: string,
  signalUnit: string,
): Series {
  let atMs = START_MS
  return {
    timeMs: list.map(({ stepMs }) => (atMs += stepMs)),
    value: list.map(({ value }) => value),
    signal: list.map(({ signal }) => signal),
    quantity,
    signalUnit,
    expectedIntervalMs: 1000,
  }
}

function cut(series: Series, from: number, to: number): Series {
  const part = <T>(column: readonly T[]) => column.slice(from, to)
  return { ...series, timeMs: part(series.timeMs), value: part(series.value), signal: part(series.signal) }
}

function shift(series: Series, byMs: number): Series {
  return { ...series, timeMs: series.timeMs.map((timeMs) => timeMs + byMs) }
}

test('every test is found by its name, names are in lower case with hyphens, and defaults satisfy the schema', () => {
  expect(new Set(all.map(({ name }) => name)).size).toBe(all.length)
  for (const each of all) {
    expect(each.name).toMatch(/^[a-z]+(-[a-z]+)*$/)
    expect(testNamed(each.name)).toBe(each)
    expect(each.source).not.toBe('')
    for (const config of Object.values(each.defaults)) expect(each.config.parse(config)).toEqual(config)
  }
  expect(testNamed('no-such-test')).toBeUndefined()
})

test('spike and rate of change are off for light and wind: sunflecks and gusts are the habitat', () => {
  for (const name of ['spike', 'rate-of-change'])
    expect(Object.keys(testNamed(name)!.defaults).sort()).toEqual([
      'soil_moisture',
      'soil_ph',
      'soil_temperature',
    ])
})

describe.each(subjects)(
  '$name on $quantity in $signalUnit',
  ({ name, quantity, signalUnit, config, each }) => {
    const run = (series: Series, kind = 0, restartMs = START_MS): Finding[] =>
      each.run(series, config, surroundings(kind, restartMs))
    const given = (...list: [number, number | null, number][]) =>
      seriesFrom(
        list.map(([stepMs, value, signal]) => ({ stepMs, value, signal })),
        quantity,
        signalUnit,
      )

    test('empty, one, two, all missing, one time twice, a clock step and a gap give one finding per reading', () => {
      const cases = [
        given(),
        given([0, 5, 20]),
        given([0, 5, 20], [1000, 5, 20]),
        given([0, null, 20], [1000, null, 20], [1000, null, 20]),
        given([0, 5, 20], [0, 7, 4], [1000, 5, 20]),
        given([0, 5, 20], [1000, 5, 20], [31_536_000_000, 5, 20], [1000, 5, 20]),
        given([0, 5, 20], [1000, 5, 20], [9000, 5, 20], [1000, 5, 20]),
      ]
      for (const series of cases)
        for (const expectedIntervalMs of [1000, null])
          for (const kind of [0, 1, 2])
            expect(run({ ...series, expectedIntervalMs }, kind)).toHaveLength(series.timeMs.length)
    })

    test('times that fall and columns of unlike length are the caller’s mistake and are thrown', () => {
      const series = given([0, 5, 20], [1000, 5, 20], [-500, 5, 20])
      expect(() => run(series)).toThrow(RangeError)
      expect(() => run({ ...given([0, 5, 20]), signal: [] })).toThrow(RangeError)
    })

    test('it never throws on finite numbers and gives one finding per reading, each under its own name', () => {
      const finite = fc.record({
        stepMs: fc.nat(10_000),
        value: fc.option(fc.double({ noNaN: true, noDefaultInfinity: true })),
        signal: fc.double({ noNaN: true, noDefaultInfinity: true }),
      })
      fc.assert(
        fc.property(fc.array(finite, { maxLength: 30 }), fc.nat(2), fc.boolean(), (list, kind, isKnown) => {
          const series = seriesFrom(list, quantity, signalUnit)
          const findings = run(isKnown ? series : { ...series, expectedIntervalMs: null }, kind)
          expect(findings).toHaveLength(list.length)
          for (const finding of findings)
            if (finding !== null && finding !== 'not evaluated') {
              expect(finding.test).toBe(name)
              expect([3, 4]).toContain(finding.flag)
            }
        }),
        { numRuns: 60 },
      )
    })

    test('a shift in time changes nothing', () => {
      fc.assert(
        fc.property(
          readings,
          fc.nat(2),
          fc.integer({ min: -86_400_000, max: 86_400_000 }),
          (list, kind, byMs) => {
            const series = seriesFrom(list, quantity, signalUnit)
            expect(run(shift(series, byMs), kind, START_MS + 20_000 + byMs)).toEqual(
              run(series, kind, START_MS + 20_000),
            )
          },
        ),
        { numRuns: 60 },
      )
    })

    test('a reading further away than the context changes nothing', () => {
      fc.assert(
        fc.property(readings, fc.nat(2), (list, kind) => {
          const series = seriesFrom(list, quantity, signalUnit)
          const { ms, readings } = each.context(config)
          const farMs = ms + (2 * readings + 1) * longestStepMs(1000) + 1
          const with2 = {
            ...series,
            timeMs: [START_MS - farMs, ...series.timeMs, (series.timeMs.at(-1) ?? START_MS) + farMs],
            value: [5, ...series.value, 5],
            signal: [20, ...series.signal, 20],
          }
          expect(run(with2, kind).slice(1, -1)).toEqual(run(series, kind))
        }),
        { numRuns: 60 },
      )
    })

    test('the context is enough: the readings within it give the same finding as the whole series', () => {
      fc.assert(
        fc.property(
          fc.array(reading, { minLength: 1, maxLength: 80 }),
          fc.nat(2),
          fc.nat(),
          (list, kind, pick) => {
            const series = seriesFrom(list, quantity, signalUnit)
            const n = pick % list.length
            const { timeMs } = series
            const own = each.asksOthersOnly ? NO_CONTEXT : each.context(config)
            const ahead = each.looksBackOnly ? NO_CONTEXT : own
            const firstMs = timeMs[Math.max(0, n - own.readings)]! - own.ms
            const from = Math.max(0, timeMs.findIndex((ms) => ms >= firstMs) - own.readings)
            const lastMs = timeMs[Math.min(list.length - 1, n + ahead.readings)]! + ahead.ms
            const to = timeMs.findLastIndex((ms) => ms <= lastMs) + 1 + ahead.readings
            const restartMs = START_MS + 20_000
            expect(run(cut(series, from, to), kind, restartMs)[n - from]).toEqual(
              run(series, kind, restartMs)[n],
            )
          },
        ),
        { numRuns: 300 },
      )
    })
  },
)
