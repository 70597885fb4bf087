import { describe, expect, test } from 'vitest'
import { findGaps, gap } from '../../../hub/quality/gap.ts'
import { seeded } from './seeded.ts'
import { alone, seriesOf } from './series.ts'

const at = (...timeMs: number[]) =>
  seriesOf(
    timeMs.map(() => 1),
    { timeMs },
  )

// Source: QARTOD manuals, timing / gap test; two and a half intervals are common practice, no source.
describe('gaps', () => {
  test('below, at and above two and a half intervals', () => {
    expect(findGaps(at(0, 2499))).toEqual([])
    expect(findGaps(at(0, 2500))).toEqual([])
    expect(findGaps(at(0, 2501))).toEqual([{ fromMs: 0, toMs: 2501, missingCount: 2 }])
  })

  // A11: a board stores 111–150 while out of range; 120–124 never come: a gap of five.
  test('five lost readings of forty are one gap of five', () => {
    const timeMs = Array.from({ length: 40 }, (_, n) => (n + 111) * 1000).filter(
      (time) => time < 120_000 || time > 124_000,
    )
    expect(findGaps(at(...timeMs))).toEqual([{ fromMs: 119_000, toMs: 125_000, missingCount: 5 }])
  })

  test('empty, one, and one time twice have none; without an interval an hour is the limit', () => {
    for (const series of [at(), at(5), at(5, 5)]) expect(findGaps(series)).toEqual([])
    const series = { ...at(0, 3_600_000, 7_200_001), expectedIntervalMs: null }
    expect(findGaps(series)).toEqual([{ fromMs: 3_600_000, toMs: 7_200_001, missingCount: null }])
  })

  test('a setting of its own moves the limit', () => {
    expect(findGaps(at(0, 2500), { gapAfterIntervals: 2 })).toHaveLength(1)
  })

  test('no reading is flagged for what did not come', () => {
    expect(gap.run(at(0, 99_000, 100_000), gap.defaults['soil_ph']!, alone())).toEqual([null, null, null])
  })

  test('every simulated outage is found, and nothing else', () => {
    const chance = seeded(3)
    let atMs = 0
    const lost: number[] = []
    const timeMs = Array.from({ length: 2000 }, () => {
      const outage = chance.uniform() < 0.02 ? Math.floor(chance.between(2, 50)) : 0
      if (outage > 0) lost.push(outage)
      atMs += 1000 * (1 + outage)
      return atMs + Math.round(chance.between(-200, 200))
    })
    expect(findGaps(at(...timeMs)).map(({ missingCount }) => missingCount)).toEqual(lost)
  })
})
