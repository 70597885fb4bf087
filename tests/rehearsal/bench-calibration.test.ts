import { describe, expect, it } from 'vitest'
import type { Channel } from '../../hub/rehearsal/bench-media.ts'
import { benchOf, meanOf } from './bench-samples.ts'

// The formulas here are written out again from the domain's rules; the buffers are those printed on the bottles.

/** technical buffers 4, 7 and 10: printed for 10 °C; for 17 °C on the line from 15 to 20 °C */
const printed: Record<number, Record<'buffer-4' | 'buffer-7' | 'buffer-10', number>> = {
  10: { 'buffer-4': 4, 'buffer-7': 7.06, 'buffer-10': 10.18 },
  17: { 'buffer-4': 4, 'buffer-7': 7.032, 'buffer-10': 10.096 },
}
type Bottle = 'buffer-4' | 'buffer-7' | 'buffer-10'

type Bench = ReturnType<typeof benchOf>

/** Mean of 20 readings in a buffer, once it is stable. */
function inBuffer(bench: Bench, board: number, bottle: Bottle, celsius: number, second: number): number {
  const plan = bench.plans[board]!
  bench.put(plan, 'ph', { where: bottle, celsius }, second)
  return meanOf(bench.signals(plan, 'ph', second + 80, 20))
}

/** Slope as a share of 0.198421 mV per pH and kelvin, and offset at pH 7, by the two-point formula. */
function twoPoint(bench: Bench, board: number, celsius: number, other: Bottle = 'buffer-4') {
  const seven = inBuffer(bench, board, 'buffer-7', celsius, 0)
  const second = inBuffer(bench, board, other, celsius, 100)
  const [sevenPh, otherPh] = [printed[celsius]!['buffer-7'], printed[celsius]![other]]
  const slope = (second - seven) / (otherPh - sevenPh)
  return {
    slopeShare: slope / (-0.198421 * (273.15 + celsius)),
    offsetMillivolt: seven + slope * (7 - sevenPh),
  }
}

describe.each([17, 10])('two buffers at %i °C', (celsius) => {
  it.each([0, 1, 3, 4, 7])('give the slope and offset of the scenario, board %i', (board) => {
    const bench = benchOf()
    const { slopeShare, offsetMillivolt } = bench.probesOf(bench.plans[board]!).electrode
    for (const other of ['buffer-4', 'buffer-10'] as const) {
      const found = twoPoint(bench, board, celsius, other)
      // means of 20 readings with 0.25 mV of noise: 0.06 mV each, over more than 3 pH
      expect(Math.abs(found.slopeShare - slopeShare)).toBeLessThan(0.0015)
      expect(Math.abs(found.offsetMillivolt - offsetMillivolt)).toBeLessThan(0.25)
    }
  })
})

describe('the other probes', () => {
  it.each([0, 3, 6])('show their own span, factor, ice point and cup line, board %i', (board) => {
    const bench = benchOf({ begins: 'on the bench' })
    const plan = bench.plans[board]!
    const { wetness, light, thermometer, cups } = bench.probesOf(plan)
    const mean = (channel: Channel, from: number) => meanOf(bench.signals(plan, channel, from, 100))
    expect(Math.abs(mean('moisture', 1) - wetness.drySignal)).toBeLessThan(0.5)
    expect(mean('light', 1)).toBe(0)
    expect(Math.abs(mean('temperature', 1) + thermometer.offsetCelsius)).toBeLessThan(0.04)
    expect(mean('wind', 1)).toBe(0)

    bench.put(plan, 'moisture', { where: 'saturated' }, 200)
    bench.put(plan, 'light', { where: 'lamp', lux: 20_000 }, 200)
    bench.put(plan, 'temperature', { where: 'bath', celsius: 22 }, 200)
    bench.put(plan, 'wind', { where: 'fan', metresPerSecond: 3 }, 200)
    expect(Math.abs(mean('moisture', 400) - wetness.wetSignal)).toBeLessThan(0.5)
    expect(Math.abs(((mean('light', 400) / 1.2) * light.factor) / 20_000 - 1)).toBeLessThan(0.001)
    expect(Math.abs(mean('temperature', 400) + thermometer.offsetCelsius - 22)).toBeLessThan(0.04)
    const speed = cups.offsetMetresPerSecond + cups.slopeMetresPerSecondPerHertz * mean('wind', 400)
    expect(Math.abs(speed - 3)).toBeLessThan(0.06)
  })
})

describe('the truth on the bench', () => {
  it('is that of the medium, at no quadrat; null where there is none; and again that of the soil', () => {
    const bench = benchOf()
    const plan = bench.plans[4]!
    const inSoil = bench.measure(plan, 500)
    bench.put(plan, 'ph', { where: 'buffer-10', celsius: 17 }, 10)
    bench.put(plan, 'moisture', { where: 'air' }, 10)
    bench.put(plan, 'light', { where: 'lamp', lux: 700 }, 10)
    bench.put(plan, 'wind', { where: 'fan', metresPerSecond: 2 }, 10)
    const onBench = bench.measure(plan, 60)
    expect(onBench.ph.truth).toBeCloseTo(10.096, 9)
    expect(onBench).toMatchObject({
      ph: { quadrat: null, fault: null },
      moisture: { truth: null, quadrat: null },
      light: { truth: 700, quadrat: null },
      temperature: { truth: 17, quadrat: null },
      wind: { truth: 2, quadrat: null },
    })
    bench.put(plan, 'ph', { where: 'water', celsius: 17 }, 70)
    expect(bench.measure(plan, 80).ph.truth).toBeNull()
    for (const channel of ['ph', 'moisture', 'light', 'wind'] as const)
      bench.put(plan, channel, { where: 'soil' }, 90)
    const again = bench.measure(plan, 500)
    for (const channel of ['ph', 'moisture', 'light', 'temperature', 'wind'] as const)
      expect(again[channel]).toEqual(inSoil[channel])
  })

  it('does not reach a board of the same name that is somewhere else', () => {
    const bench = benchOf()
    const plan = { ...bench.plans[7]!, isTwin: true }
    const before = bench.measure(plan, 50)
    bench.put(plan, 'ph', { where: 'buffer-7', celsius: 17 }, 10)
    expect(bench.measure(plan, 50)).toEqual(before)
  })
})

describe('the thermometer', () => {
  it('is in the beaker with its electrode, and goes back to where it was', () => {
    const bench = benchOf({ begins: 'on the bench' })
    const plan = bench.plans[2]!
    const celsius = (second: number) => bench.measure(plan, second).temperature.truth
    expect(celsius(5)).toBe(0)
    expect(bench.put(plan, 'ph', { where: 'buffer-7', celsius: 12 }, 10)).toBe('joins')
    expect(bench.put(plan, 'ph', { where: 'water', celsius: 12 }, 20)).toBe('joins')
    expect(bench.put(plan, 'ph', { where: 'buffer-4', celsius: 12 }, 30)).toBe('joins')
    expect([celsius(15), celsius(25), celsius(35)]).toEqual([12, 12, 12])
    expect(bench.put(plan, 'ph', { where: 'soil' }, 200)).toBe('returns')
    expect(celsius(210)).toBe(0)
    expect(bench.put(plan, 'ph', { where: 'air' }, 220)).toBeNull()
  })

  it('stays where it is put for itself, although its electrode is in a beaker', () => {
    const bench = benchOf()
    const plan = bench.plans[2]!
    bench.put(plan, 'ph', { where: 'buffer-7', celsius: 25 }, 10)
    bench.put(plan, 'temperature', { where: 'ice' }, 20)
    bench.put(plan, 'ph', { where: 'soil' }, 30)
    expect(bench.measure(plan, 40).temperature.truth).toBe(0)
  })
})

describe('faults of the bench', () => {
  it('swapped: the slope comes out with the wrong sign on every board, and the truth says why', () => {
    for (let board = 0; board < 8; board += 1) {
      const bench = benchOf({ faults: 'swapped' })
      expect(twoPoint(bench, board, 17).slopeShare).toBeLessThan(-0.9)
      const { ph } = bench.measure(bench.plans[board]!, 150)
      expect(ph.fault).toBe('swapped')
      expect(ph.truth).toBeCloseTo(7.032, 9)
    }
  })

  it('stale buffer 10: the slope looks low with 7 and 10, and is right with 4 and 7', () => {
    const bench = benchOf({ faults: 'stale-10' })
    const { slopeShare } = bench.probesOf(bench.plans[5]!).electrode
    const withTen = twoPoint(bench, 5, 17, 'buffer-10').slopeShare
    expect(withTen / slopeShare).toBeCloseTo((9.6 - 7.032) / (10.096 - 7.032), 2)
    expect(bench.measure(bench.plans[5]!, 150).ph).toMatchObject({ truth: 9.6, fault: 'stale-10' })
    const other = benchOf({ faults: 'stale-10' })
    expect(Math.abs(twoPoint(other, 5, 17).slopeShare - slopeShare)).toBeLessThan(0.0015)
  })

  it('cracked bulb: one board gives about 3 mV in everything, the others are well', () => {
    const bench = benchOf({ faults: 'cracked-bulb,dry-bulb' })
    const board = bench.plans.findIndex(({ name }) => name === bench.crackedBulbBoard)
    expect(bench.crackedBulbBoard).not.toBe(bench.dryBulbBoard)
    for (const [turn, bottle] of (['buffer-4', 'buffer-7', 'buffer-10'] as const).entries())
      expect(Math.abs(inBuffer(bench, board, bottle, 17, 100 * turn) - 3)).toBeLessThan(0.3)
    expect(bench.measure(bench.plans[board]!, 250).ph).toMatchObject({ fault: 'cracked-bulb' })
    const well = bench.plans.findIndex(
      ({ name }) => ![bench.crackedBulbBoard, bench.dryBulbBoard].includes(name),
    )
    expect(twoPoint(bench, well, 17).slopeShare).toBeGreaterThan(0.95)
  })

  it('are no part of “all”, and can be asked for beside it', () => {
    expect(benchOf({ faults: 'all' }).crackedBulbBoard).toBeNull()
    expect(benchOf({ faults: 'all,cracked-bulb' }).crackedBulbBoard).not.toBeNull()
    expect(benchOf({ faults: 'all,cracked-bulb' }).dryBulbBoard).not.toBeNull()
  })
})

describe('the seed', () => {
  it('gives the same numbers for the same puts, and other ones for another seed', () => {
    const measured = (seed: number) => {
      const bench = benchOf({ seed, begins: 'on the bench' })
      const plan = bench.plans[3]!
      bench.put(plan, 'ph', { where: 'water', celsius: 17 }, 20.25)
      bench.put(plan, 'ph', { where: 'buffer-4', celsius: 17 }, 40.5)
      return Array.from({ length: 80 }, (_, second) => bench.measure(plan, second))
    }
    expect(measured(4)).toEqual(measured(4))
    expect(measured(5)).not.toEqual(measured(4))
  })
})
