import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { NEIGHBOURS_AT_MOST } from '../../../hub/quality/neighbours-at-most.ts'
import { Others } from '../../../hub/quality/surroundings.ts'
import type { Archive } from '../../../hub/store/store.ts'
import { Timelines } from '../../../hub/survey/timeline.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'

const HOUR_MS = 3_600_000

/** A transect with a thermometer at every metre, and what each has read. */
function around(readings: readonly { timeMs: number[]; value: number[] }[]) {
  const survey = exampleSurvey()
  const names = readings.map((_, n) => `around-${n}`)
  survey.transects[0]!.lengthMetres = 100
  survey.boards.push(...names.map((name) => ({ name, sampleIntervalSeconds: 2 })))
  survey.quadrats.push(
    ...names.map((label, n) => ({
      ...survey.quadrats[0]!,
      label,
      distanceMetres: 3 + ((n * 7) % readings.length),
    })),
  )
  survey.probes.push(
    ...names.map((board) => ({ ...survey.probes[1]!, id: `${board}-t`, board, channel: 'temperature' })),
  )
  survey.placements.push(
    ...names.map((board) => ({ probe: `${board}-t`, quadrat: board, from: '2026-06-12T08:00:00Z' })),
  )
  const timelines = new Timelines([survey])
  let read = 0
  const archive: Archive = {
    values: (board, _channel, fromMs, toMs) => {
      const { timeMs, value } = readings[names.indexOf(board)]!
      const places = timeMs.flatMap((at, n) => (fromMs <= at && at <= toMs ? [n] : []))
      read += places.length
      return { timeMs: places.map((n) => timeMs[n]!), value: places.map((n) => value[n]!) }
    },
    restarts: () => [],
  }
  const here = timelines.at('sedge-1', 'temperature', nineOClock)!
  return {
    others: new Others(timelines, archive, 'sedge-1', here),
    distanceOf: (n: number) => 1 + ((n * 7) % readings.length),
    read: () => read,
  }
}

/** What the words of the contract say, without any thought of how much is read. */
function plainly(
  readings: readonly { timeMs: number[]; value: number[] }[],
  distanceOf: (n: number) => number,
  timeMs: number,
  withinMs: number,
  withinMetres: number,
): number[] {
  return readings
    .flatMap((series, n) => {
      let best: { gap: number; value: number } | null = null
      for (const [place, at] of series.timeMs.entries()) {
        const gap = Math.abs(at - timeMs)
        if (gap <= withinMs && (best === null || gap < best.gap)) best = { gap, value: series.value[place]! }
      }
      return best && distanceOf(n) <= withinMetres ? [{ far: distanceOf(n), value: best.value }] : []
    })
    .sort((one, other) => one.far - other.far)
    .slice(0, NEIGHBOURS_AT_MOST)
    .map(({ value }) => value)
}

describe('what neighbours read at a moment', () => {
  const series = fc
    .record({ stepMs: fc.constantFrom(500, 7000, 60_000, 290_000, 900_000), lackFromMs: fc.nat(HOUR_MS) })
    .map(({ stepMs, lackFromMs }) => {
      const timeMs: number[] = []
      for (let at = 0; at < HOUR_MS; at += stepMs)
        if (at < lackFromMs || at > lackFromMs + 500_000) timeMs.push(nineOClock + at)
      return { timeMs, value: timeMs.map((_, n) => n) }
    })
  const moments = fc.array(fc.integer({ min: -100_000, max: HOUR_MS + 100_000 }), { minLength: 1 })

  test('is the value nearest in time, of the nearest twenty, however the questions follow each other', () => {
    fc.assert(
      fc.property(
        fc.array(series, { minLength: 1, maxLength: 26 }),
        moments,
        fc.constantFrom(20_000, 300_000, 600_000),
        fc.constantFrom(5, 100),
        (readings, asks, withinMs, withinMetres) => {
          const { others, distanceOf } = around(readings)
          const whole = { fromMs: nineOClock, toMs: nineOClock + HOUR_MS }
          const asked = { fromMs: nineOClock + HOUR_MS / 2, toMs: nineOClock + (HOUR_MS * 2) / 3 }
          const known = others.during(whole, asked)
          for (const ask of asks)
            expect(
              known.neighbours(nineOClock + ask, withinMs, withinMetres).map(({ value }) => value),
            ).toEqual(plainly(readings, distanceOf, nineOClock + ask, withinMs, withinMetres))
        },
      ),
      { numRuns: 60 },
    )
  })

  test('is read close by only, where there is a value close by', () => {
    const timeMs = Array.from({ length: 36_000 }, (_, n) => nineOClock + 100 * n)
    const { others, read } = around(Array.from({ length: 40 }, () => ({ timeMs, value: timeMs })))
    const moment = nineOClock + HOUR_MS / 2
    const known = others.during({ fromMs: nineOClock, toMs: moment }, { fromMs: moment, toMs: moment })
    expect(known.neighbours(moment, 600_000)).toHaveLength(NEIGHBOURS_AT_MOST)
    // a minute of ten a second, of twenty of the forty; both ends count
    expect(read()).toBe(NEIGHBOURS_AT_MOST * 601)
  })
})
