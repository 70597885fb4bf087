import { describe, expect, test } from 'vitest'
import { SurveyFile } from '../../../../hub/contract/survey.ts'
import { exposedCatches, instantOf } from '../../../../hub/study/exposure.ts'
import { factorsOf } from '../../../../hub/study/factors.ts'
import { lightPairs, pairReferences } from '../../../../hub/study/pairing.ts'
import { daysOf } from '../../../../hub/study/summary/days.ts'
import { intervalOfMean } from '../../../../hub/study/summary/interval.ts'
import { localDayOf } from '../../../../hub/study/summary/local-day.ts'
import { hydrogenIonMean, summariseSurvey } from '../../../../hub/study/summary/summarise.ts'
import { windOf } from '../../../../hub/study/summary/wind.ts'
import { exampleSurvey, nineOClock } from '../../../support/example-survey.ts'
import { SmallHub } from '../../../support/small-hub.ts'
import { temporaryFolder } from '../../../support/temporary-folder.ts'

const at = (seconds: number) => new Date(nineOClock + seconds * 1000).toISOString()
const minute = 60_000

describe('parts of a summary', () => {
  test('three replicates of a probe: the stated interval is not k = 2 but Student’s', () => {
    // worked example, one quadrat pH, n = 3: instrument u = 0.038, replicates s = 0.12 → u = 0.079, ν ≈ 3.4, U95 ≈ 0.24
    // (JCGM 100:2008 G.4.1; computed by hand)
    const values = [5.48, 5.6, 5.72]
    const interval = intervalOfMean(values, null, [0.038, 0.038, 0.038], null)
    expect(interval.samplingUncertainty!).toBeCloseTo(0.12 / Math.sqrt(3), 6)
    expect(Math.hypot(interval.samplingUncertainty!, interval.probeUncertainty!)).toBeCloseTo(0.079, 3)
    expect(interval.degreesOfFreedom!).toBeCloseTo(3.4, 1)
    expect(interval.expanded!).toBeCloseTo(0.24, 2)
  })

  test('one value has no spread, and so no interval', () => {
    expect(intervalOfMean([5.5], null, [0.04], 0.15)).toMatchObject({
      samplingUncertainty: null,
      expanded: null,
    })
  })

  test('readings that resemble their neighbours are worth fewer', () => {
    // n(1 − r)/(1 + r): 100 readings with r = 0.9 are worth 5.26
    const values = Array.from({ length: 100 }, (_, index) => 12 + Math.sin(index))
    expect(intervalOfMean(values, 0.9, [], null).effectiveN).toBeCloseTo(100 * (0.1 / 1.9), 10)
    expect(intervalOfMean(values, null, [], null).effectiveN).toBe(100)
  })

  // Student's t for one degree of freedom is 12.7 (any table): an interval from two values says nothing
  test('readings worth fewer than three independent ones give no interval, three insertions do', () => {
    const values = Array.from({ length: 100 }, (_, index) => 12 + Math.sin(index))
    expect(intervalOfMean(values, 0.96, [0.1], null)).toMatchObject({
      effectiveN: expect.closeTo(2.04, 2),
      samplingUncertainty: null,
      probeUncertainty: 0.1,
      expanded: null,
    })
    expect(intervalOfMean(values, 0.94, [0.1], null).expanded).toBeGreaterThan(0)
    expect(intervalOfMean([5, 6], null, [0.1], null).expanded).toBeGreaterThan(0)
  })

  test('a local day begins at local midnight, in summer and in winter time', () => {
    const dayOf = localDayOf('Europe/London')
    // summer time ended on 2026-10-25 (EU rule: last Sunday of October, 01:00 UTC)
    expect(dayOf(Date.parse('2026-10-24T22:59:00Z'))).toBe('2026-10-24')
    expect(dayOf(Date.parse('2026-10-24T23:01:00Z'))).toBe('2026-10-25')
    expect(dayOf(Date.parse('2026-10-25T23:59:00Z'))).toBe('2026-10-25')
    expect(dayOf(Date.parse('2026-10-26T00:01:00Z'))).toBe('2026-10-26')
  })

  test('daily sum of light by the trapezium rule, not carried over a gap', () => {
    const times = [0, 5, 10, 30, 35].map((minutes) => nineOClock + minutes * minute)
    const [day] = daysOf(times, [0, 600, 1200, 6000, 6000], () => 'd', true)
    // 5 min × 300 + 5 min × 900 + (gap of 20 min: nothing) + 5 min × 6000 lx = 36,000 lx·min = 600 lx·h
    expect(day).toMatchObject({ n: 5, low: 0, high: 6000, amplitude: 6000, sumLuxHours: 600 })
  })

  test('wind: calm by the minute and the gust over three seconds', () => {
    // WMO-No. 8 Part I ch. 5: gust as the largest 3 s running mean. Seconds 3 4 9 8 7 4 3 times 0.66 plus 0.30:
    // 24 counts in 3 s are 8.0 Hz → 5.58 m/s (worked by hand)
    const speeds = [3, 4, 9, 8, 7, 4, 3].map((count) => 0.3 + 0.66 * count)
    const seconds = speeds.map((_, index) => nineOClock + index * 1000)
    expect(windOf(seconds, speeds).gust).toBeCloseTo(5.58, 10)
    const minutes = [1.2, 0, 0, 2.1].map((_, index) => nineOClock + index * minute)
    expect(windOf(minutes, [1.2, 0, 0, 2.1])).toEqual({ gust: 2.1, calmPercent: 50 })
    expect(windOf([], [])).toEqual({ gust: null, calmPercent: null })
  })

  test('the hydrogen-ion mean of pH 4 and 6 is 4.30, not 5', () => {
    // −log10((10⁻⁴ + 10⁻⁶)/2) = 4.2967, by definition of pH
    expect(hydrogenIonMean([4, 6])).toBeCloseTo(4.2967, 4)
  })

  test('a local time without a zone is the site’s, also around the change', () => {
    expect(instantOf('2026-06-12T18:00:00', 'Europe/London')).toBe(Date.parse('2026-06-12T17:00:00Z'))
    expect(instantOf('2026-12-12T18:00:00', 'Europe/London')).toBe(Date.parse('2026-12-12T18:00:00Z'))
    expect(instantOf('2026-10-25T03:00:00', 'Europe/London')).toBe(Date.parse('2026-10-25T03:00:00Z'))
    expect(instantOf('2026-06-12T18:00:00+02:00', 'Europe/London')).toBe(Date.parse('2026-06-12T16:00:00Z'))
    expect(instantOf(undefined, 'Europe/London')).toBeNull()
  })
})

/** Light at two quadrats under a moving sky: each probe on its own channel, the open sky beside them. */
function lightSurvey(): SurveyFile {
  const survey = exampleSurvey()
  const lux = (id: string, channel: string, more: object = {}) => ({
    id,
    quantity: 'illuminance',
    method: { heightMetres: 0 },
    board: 'sedge-1',
    channel,
    ...more,
  })
  return SurveyFile.parse({
    ...survey,
    probes: [
      ...survey.probes,
      lux('LUX-1', 'lux1'),
      lux('LUX-2', 'lux2'),
      lux('SKY', 'sky', { reference: 'open-sky' }),
    ],
    placements: [
      ...survey.placements,
      { probe: 'LUX-1', quadrat: 'Q1', from: at(-3600) },
      { probe: 'LUX-2', quadrat: 'Q2', from: at(-3600) },
    ],
    calibrations: [
      ...survey.calibrations,
      ...['LUX-1', 'LUX-2'].map((probe) => ({
        id: `${probe}-cal`,
        probe,
        validFrom: at(-3600),
        recipe: { kind: 'already-a-value', unit: 'lx', standardUncertainty: 50 },
      })),
      {
        id: 'SKY-cal',
        probe: 'SKY',
        validFrom: at(-3600),
        recipe: { kind: 'already-a-value', unit: 'lx', standardUncertainty: 500 },
      },
    ],
  })
}

describe('light paired with the open sky', () => {
  test('with the reference at full scale, relative light is refused and the lux kept', () => {
    const [pair] = lightPairs(
      {
        quadrat: 'Q3',
        probe: 'L',
        quantity: 'illuminance',
        method: {},
        unit: 'lx',
        calibrations: [],
        spot: null,
        timeMs: [31_000],
        value: [9000],
        uncertainty: [50],
      },
      { timeMs: [0, 60_000], value: [50_000, 50_000], uncertainty: [9, 9], saturatedMs: [30_000] },
    )
    expect(pair).toMatchObject({ lux: 9000, percent: null })
    expect(pair!.remarks[0]).toContain('full scale')
  })

  test('the brighter quadrat is the darker one', () => {
    // worked by hand: Q1 10:42:10 probe 3450, k 1.0526, reference 41,200 at 10:42:00 and 39,700 at 10:42:15 → 9.03 %;
    // Q2 11:20:00 probe 5100, reference 72,000 → 7.46 %
    const pairs = (second: number, lux: number, sky: [number, number][]) =>
      lightPairs(
        {
          quadrat: 'Q1',
          probe: 'L',
          quantity: 'illuminance',
          method: {},
          unit: 'lx',
          calibrations: [],
          spot: null,
          timeMs: [second * 1000],
          value: [lux],
          uncertainty: [Number.NaN],
        },
        {
          timeMs: sky.map(([time]) => time * 1000),
          value: sky.map(([, value]) => value),
          uncertainty: sky.map(() => Number.NaN),
        },
      )
    const k = 40_000 / 38_000
    expect(
      pairs(10, 3450 * k, [
        [0, 41_200],
        [15, 39_700],
      ])[0]!.percent!,
    ).toBeCloseTo(9.03, 2)
    expect(pairs(0, 5100 * k, [[0, 72_000]])[0]!.percent!).toBeCloseTo(7.46, 2)
  })

  test('a reading without an open-sky reading within five minutes has no percentage, and says why', () => {
    const hub = new SmallHub(temporaryFolder())
    hub.keeper.save(lightSurvey(), 'begin')
    const light = (second: number, channel: string, lux: number) =>
      hub.send(nineOClock + second * 1000, [
        {
          n: `sedge-1/${channel}`,
          u: 'lx',
          v: lux,
          t: nineOClock / 1000 + second,
        },
      ])
    for (let second = 0; second < 60; second += 5) {
      light(second, 'sky', 40_000)
      light(second, 'lux1', 4000)
    }
    for (let second = 1000; second < 1060; second += 5) light(second, 'lux2', 4000)
    const pairing = pairReferences(hub.reader, hub.keeper.timelines, 'example')
    expect(pairing.openSky).toBe('SKY')
    const [q1, q2] = pairing.light
    expect(q1).toMatchObject({
      quadrat: 'Q1',
      readings: 12,
      paired: 12,
      medianPercent: expect.closeTo(10, 6),
    })
    expect(q2).toMatchObject({ quadrat: 'Q2', readings: 12, paired: 0, medianPercent: null })
    expect(q2!.remarks).toEqual([{ text: expect.stringContaining('five minutes'), n: 12 }])
    const summary = summariseSurvey(hub.reader, hub.keeper.timelines, hub.keeper.named('example'))
    const of = (quadrat: string) => summary.summaries.find((each) => each.quadrat === quadrat)!
    expect(of('Q1').openSkyPercent).toBeCloseTo(10, 6)
    expect(of('Q2').openSkyPercent).toBeNull()
    expect(summary.cautions.map(({ kind }) => kind)).toContain('different-hours')
    // not every quadrat is paired, so the factor stays in lux
    expect(factorsOf(summary).find(({ quantity }) => quantity === 'illuminance')!.unit).toBe('lx')
    hub.close()
  })
})

test('a pitfall’s catch is joined to what the probes read while it stood', () => {
  const hub = new SmallHub(temporaryFolder())
  const survey = SurveyFile.parse({
    ...exampleSurvey(),
    traps: [{ id: 'P1', method: 'pitfall trap', quadrat: 'Q1', setAt: at(0), checkWithinHours: 24 }],
  })
  hub.keeper.save(survey, 'begin')
  for (let hour = -2; hour < 30; hour++)
    hub.send(nineOClock + hour * 3_600_000, [
      { n: 'sedge-1/temperature', u: 'Cel', v: 10.5 + hour, t: nineOClock / 1000 + hour * 3600 },
    ])
  const record = (more: object) => ({
    taxon: 'ground beetle',
    count: 6,
    method: 'pitfall trap',
    station: 'P1',
    effort: { checkedAt: at(24 * 3600), traps: 2 },
    cell: 'A2',
    ...more,
  })
  const [caught, nowhere] = exposedCatches(hub.reader, hub.keeper.timelines, survey, [
    record({}),
    record({ station: 'P9' }),
  ])
  expect(caught).toMatchObject({ quadrat: 'Q1', hours: 24, perTrap: 3, perTrapHour: 6 / 48 })
  // hours 0 to 23 after setting: 10.5 + hour less 0.5 of the ice point, mean 10 + 11.5
  expect(caught!.factors).toEqual([
    expect.objectContaining({ quantity: 'soil_temperature', n: 24, mean: expect.closeTo(21.5, 9) }),
  ])
  expect(nowhere).toMatchObject({ quadrat: null, factors: [], whyNone: expect.stringContaining('P9') })
  hub.close()
})

test('unlike depths are never pooled, and that is said', () => {
  const hub = new SmallHub(temporaryFolder())
  const survey = exampleSurvey()
  const deep = { ...survey.probes[1]!, id: 'TEMP-2', channel: 'deep', method: { depthCentimetres: 10 } }
  hub.keeper.save(
    {
      ...survey,
      probes: [...survey.probes, deep],
      placements: [...survey.placements, { probe: 'TEMP-2', quadrat: 'Q1', from: at(-3600) }],
      calibrations: [
        ...survey.calibrations,
        {
          id: 'deep',
          probe: 'TEMP-2',
          validFrom: at(-3600),
          recipe: { kind: 'digital-temperature', offsetCelsius: 0 },
        },
      ],
    },
    'begin',
  )
  for (let second = 0; second < 300; second += 10)
    hub.send(nineOClock + second * 1000, [
      { bn: 'sedge-1/', bt: nineOClock / 1000 + second, n: 'temperature', u: 'Cel', v: 14.5 },
      { n: 'deep', u: 'Cel', v: 11 },
    ])
  const summary = summariseSurvey(hub.reader, hub.keeper.timelines, hub.keeper.named('example'))
  const temperatures = summary.summaries.filter(({ quantity }) => quantity === 'soil_temperature')
  expect(temperatures.map(({ mean, n, received }) => ({ mean, n, received }))).toEqual([
    { mean: 14, n: 30, received: 30 },
    { mean: 11, n: 30, received: 30 },
  ])
  expect(summary.cautions.map(({ kind }) => kind)).toContain('unlike-methods')
  expect(factorsOf(summary).map(({ name }) => name)).toEqual([
    'Soil temperature, 5 cm deep',
    'Soil temperature, 10 cm deep',
  ])
  hub.close()
})
