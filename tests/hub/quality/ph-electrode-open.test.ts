import { describe, expect, test } from 'vitest'
import { phElectrodeOpen } from '../../../hub/quality/ph-electrode-open.ts'
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, seriesOf } from './series.ts'

const config = phElectrodeOpen.defaults['soil_ph']!
const flags = (signal: number[], value: (number | null)[], signalUnit = 'mV') =>
  phElectrodeOpen
    .run(seriesOf(value, { signal, signalUnit, quantity: 'soil_ph' }), config, alone())
    .map((finding) => (finding === 'not evaluated' ? 2 : (finding?.flag ?? 1)))
const bare = (millivolt: number) => 7 - millivolt / 57

// Common practice, no source: no glass electrode gives 500 mV in soil, and a sound one scatters by less than 1 mV.
describe('an open electrode', () => {
  test('below, at, at and above the rail, to both sides', () => {
    const rail = (millivolt: number) => flags(Array(9).fill(millivolt), Array(9).fill(bare(millivolt)))[4]
    expect([-500.1, -500, 500, 500.1].map(rail)).toEqual([4, 1, 1, 4])
  })

  test('the lifted signal of an amplifier is no rail, nor is one without a value', () => {
    expect(flags(Array(9).fill(2500), Array(9).fill(7))).toEqual(Array(9).fill(1))
    expect(flags(Array(9).fill(2500), Array(9).fill(null))).toEqual(Array(9).fill(1))
  })

  test('the same in volts; other units are not evaluated', () => {
    expect(flags([0.52], [bare(520)], 'V')).toEqual([4])
    expect(flags([520], [bare(520)], 'count')).toEqual([2])
  })

  // Alternating by ± a, every second difference is 4 a, and 4 a over 0.6745 · √6 is 2.42 a.
  test('below and above both limits of the noise', () => {
    const hum = (a: number) =>
      flags(
        Array.from({ length: 11 }, (_, n) => 100 + (n % 2 ? a : -a)),
        Array(11).fill(5.2),
      )[5]
    expect([1.65, 1.66, 4.95, 4.97].map(hum)).toEqual([1, 3, 3, 4])
  })

  test('a step into another buffer and a steady drift are no noise', () => {
    expect(flags([...Array(8).fill(0), ...Array(8).fill(170)], Array(16).fill(7))).toEqual(Array(16).fill(1))
    expect(
      flags(
        Array.from({ length: 16 }, (_, n) => 20 * n),
        Array(16).fill(7),
      ),
    ).toEqual(Array(16).fill(1))
  })

  test('with too few readings around it the noise is not evaluated', () => {
    expect(flags([0, 90, 0], [7, 7, 7])).toEqual([2, 2, 2])
  })

  test('readings beyond a gap say nothing about this side of it', () => {
    const signal = [...Array(12).fill(100), 0, 90, 0]
    const timeMs = signal.map((_, n) => 1000 * n + (n < 12 ? 0 : 60_000))
    const found = phElectrodeOpen.run(
      seriesOf(signal.map(bare), { signal, timeMs, signalUnit: 'mV', quantity: 'soil_ph' }),
      config,
      alone(),
    )
    expect(found.slice(0, 12)).toEqual(Array(12).fill(null))
    expect(found.slice(12)).toEqual(Array(3).fill('not evaluated'))
  })

  // Common practice, no source: an unplugged wire hums with the mains or leans on the rail.
  test('finds a simulated unplugged electrode with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 8 }, (_, seed) => {
      const chance = seeded(seed)
      const clean = quadratOf(seed, 0.5, 1000, 3000).soil_ph
      const isFaulty = clean.signal.map((_, n) => n >= 1000 && n < 1600)
      const open = () =>
        seed % 2 === 0 ? Math.min(520, 508 + 25 * chance.normal()) : 120 + 25 * chance.normal()
      const signal = clean.signal.map((own, n) => (isFaulty[n] ? open() : own))
      const value = signal.map((own) => 7 - (own - 3) / 56.5)
      return { isFaulty, findings: phElectrodeOpen.run({ ...clean, signal, value }, config, alone()) }
    })
    const { precision, recall } = scoreOf(runs)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
