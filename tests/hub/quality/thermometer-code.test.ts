import { describe, expect, test } from 'vitest'
import { thermometerCode } from '../../../hub/quality/thermometer-code.ts'
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, seriesOf } from './series.ts'

const config = thermometerCode.defaults['soil_temperature']!
const flags = (signal: number[], around = alone({ sameBoardRestarted: () => false }), more: object = {}) =>
  thermometerCode
    .run(seriesOf(signal, more), config, around)
    .map((finding) => (finding === 'not evaluated' ? 2 : (finding?.flag ?? 1)))

// Source: DS18B20 data sheet for the power-on value; −127 is common practice of libraries, no source.
describe('codes of a digital thermometer', () => {
  // A08: a loose plug; two codes among eight readings, the mean of the six others is 12.20.
  test('85.0 among twelves and −127 fail, the others pass', () => {
    const celsius = [12.1, 12.1, 12.2, 85, 12.2, 12.3, -127, 12.3]
    const found = flags(celsius)
    expect(found).toEqual([1, 1, 1, 4, 1, 1, 4, 1])
    const kept = celsius.filter((_, n) => found[n] === 1)
    expect(kept.reduce((sum, each) => sum + each, 0) / kept.length).toBeCloseTo(12.2, 10)
  })

  // A08: a kettle demonstration.
  test('a real 85.0 between 84.6 and 85.3 is left alone', () => {
    expect(flags([84.6, 85, 85.3])).toEqual([1, 1, 1])
    expect(flags([84.6, 85, 85, 85, 85.3], alone())).toEqual([1, 1, 1, 1, 1])
  })

  test('below, at, at and beyond the distance to a neighbour that makes it real', () => {
    expect([79.9, 80, 90, 90.1].map((neighbour) => flags([neighbour, 85])[1])).toEqual([4, 1, 1, 4])
  })

  test('the first after power-up fails whatever comes next', () => {
    const started = alone({
      sameBoardRestarted: (timeMs, withinMs) => timeMs - withinMs < 500 && timeMs >= 500,
    })
    expect(flags([84.6, 85, 85.3, 85], started)).toEqual([1, 4, 1, 1])
  })

  test('several codes in a row are judged by the nearest real reading', () => {
    expect(flags([12, 85, 85, -127, 85, 12])).toEqual([1, 4, 4, 4, 4, 1])
  })

  test('alone, and with nobody within ten minutes, it is not evaluated', () => {
    expect(flags([85], alone())).toEqual([2])
    expect(flags([12, 85], undefined, { timeMs: [0, 600_000] })).toEqual([1, 4])
    expect(flags([12, 85], undefined, { timeMs: [0, 600_001] })).toEqual([1, 2])
  })

  test('the 16-bit word is read as well, where the value says that it is one', () => {
    const word = { signalUnit: 'count', value: [12.4, 85.4, 12.4] }
    expect(flags([192, 1360, 192], undefined, word)).toEqual([1, 4, 1])
    expect(flags([192, 1360, 192], undefined, { signalUnit: 'count', value: [25, 3, 25] })).toEqual([2, 2, 2])
  })

  test('finds simulated codes of a loose plug with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 8 }, (_, seed) => {
      const chance = seeded(seed)
      const clean = quadratOf(seed, 0.5, 10_000, 2000).soil_temperature
      const isFaulty = clean.signal.map(() => chance.uniform() < 0.05)
      const signal = clean.signal.map((celsius, n) =>
        isFaulty[n] ? (chance.uniform() < 0.5 ? 85 : -127) : celsius,
      )
      return { isFaulty, findings: thermometerCode.run({ ...clean, signal, value: signal }, config, alone()) }
    })
    const { precision, recall } = scoreOf(runs, 4)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
