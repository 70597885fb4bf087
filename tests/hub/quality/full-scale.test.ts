import { describe, expect, test } from 'vitest'
import { fullScale } from '../../../hub/quality/full-scale.ts'
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { alone, seriesOf } from './series.ts'

const config = fullScale.defaults['illuminance']!
const flags = (signal: number[], value: number[] = signal, signalUnit = 'count') =>
  fullScale
    .run(seriesOf(value, { signal, quantity: 'illuminance', signalUnit }), config, alone())
    .map((finding) => (finding === 'not evaluated' ? 2 : (finding?.flag ?? 1)))

// Source: full scales of the sensors’ data sheets; the flat top of smaller converters is common practice, no source.
describe('light at full scale', () => {
  test('below, at and above the 16-bit full scale', () => {
    expect(flags([65_534, 65_535, 65_536])).toEqual([1, 4, 4])
  })

  test('a smaller full scale is believed when the top is flat and nothing near is higher', () => {
    expect(flags([900, 1023, 1023, 1023, 800])).toEqual([1, 4, 4, 4, 1])
    expect(flags([900, 1023, 1023, 800])).toEqual([1, 1, 1, 1])
    expect(flags([900, 1023, 1023, 1023, 1024])).toEqual([1, 1, 1, 1, 1])
    expect(flags([1022, 1022, 1022, 1022])).toEqual([1, 1, 1, 1])
  })

  test('counts that fall with light end at zero; zero in the dark is dark', () => {
    expect(flags([0, 0, 0], [0, 999, 1000])).toEqual([1, 1, 4])
  })

  test('a signal in lx has no counts to run out of', () => {
    expect(flags([65_535], [65_535], 'lx')).toEqual([2])
  })

  // Common practice, no source: the sun straight on the sensor.
  test.each([65_535, 4095])(
    'finds simulated blinding at %i with precision and recall of at least 0.95',
    (full) => {
      const runs = Array.from({ length: 6 }, (_, seed) => {
        const clean = quadratOf(seed, 1, 10_000, 2000).illuminance
        const isFaulty = clean.signal.map((counts) => counts * (full / 45_000) >= full)
        const signal = clean.signal.map((counts) => Math.min(full, Math.round(counts * (full / 45_000))))
        return { isFaulty, findings: fullScale.run({ ...clean, signal }, config, alone()) }
      })
      expect(runs.some(({ isFaulty }) => isFaulty.includes(true))).toBe(true)
      const { precision, recall } = scoreOf(runs)
      expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
    },
  )
})
