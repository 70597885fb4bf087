import { describe, expect, it } from 'vitest'
import type { Channel, Medium } from '../../hub/rehearsal/bench-media.ts'
import { benchOf, meanOf } from './bench-samples.ts'

/** Slope of the straight line through ln(difference) against time gives the time constant. */
function timeConstantOf(signals: readonly number[], end: number, smallest: number): number {
  const differences = signals.map((signal) => Math.abs(signal - end))
  const tooSmall = differences.findIndex((difference) => difference < smallest)
  const logarithms = differences.slice(0, tooSmall).map(Math.log)
  expect(logarithms.length).toBeGreaterThan(4)
  const [middle, meanLogarithm] = [(logarithms.length - 1) / 2, meanOf(logarithms)]
  let [above, below] = [0, 0]
  for (const [second, logarithm] of logarithms.entries()) {
    above += (second - middle) * (logarithm - meanLogarithm)
    below += (second - middle) ** 2
  }
  return -below / above
}

/** Second at which the last four readings, 5 s apart, first lie within a span; as a class waits for stable. */
function stableAfter(signals: readonly number[], span: number): number {
  for (let second = 15; second < signals.length; second += 5) {
    const four = [0, 5, 10, 15].map((ago) => signals[second - ago]!)
    if (Math.max(...four) - Math.min(...four) <= span) return second
  }
  return Number.POSITIVE_INFINITY
}

/** Moved from one medium into another at second 300, measured every second from then. */
function moved(
  bench: ReturnType<typeof benchOf>,
  board: number,
  channel: Channel,
  from: Medium,
  into: Medium,
) {
  const plan = bench.plans[board]!
  bench.put(plan, channel, from, 0)
  bench.put(plan, channel, into, 300)
  return bench.signals(plan, channel, 300, 300)
}

const buffer = (name: 4 | 7 | 10, celsius = 17) => ({ where: `buffer-${name}`, celsius })

/** 0.02 pH at about 57 mV per pH, the class's criterion in a buffer */
const stableMillivolt = 1.2

describe('a probe in a new medium', () => {
  it.each([
    ['electrode, from buffer 7 to 4', 'ph', buffer(7), buffer(4), 6, 4],
    ['electrode, from buffer 4 to 10', 'ph', buffer(4), buffer(10), 6, 4],
    [
      'thermometer, from ice into a bath',
      'temperature',
      { where: 'ice' },
      { where: 'bath', celsius: 30 },
      20,
      1,
    ],
    [
      'moisture probe, from dry to saturated',
      'moisture',
      { where: 'air-dry' },
      { where: 'saturated' },
      2,
      20,
    ],
  ] as const)('approaches exponentially: %s', (_, channel, from, into, constant, smallest) => {
    for (const board of [0, 3, 5]) {
      const signals = moved(benchOf(), board, channel, from, into)
      const found = timeConstantOf(signals, meanOf(signals.slice(-60)), smallest)
      expect(Math.abs(found / constant - 1)).toBeLessThan(0.06)
    }
  })

  it('is slower with a dry bulb: 25 s, while its slope is short and its offset creeps', () => {
    const bench = benchOf({ faults: 'dry-bulb' })
    const board = bench.plans.findIndex(({ name }) => name === bench.dryBulbBoard)
    const signals = moved(bench, board, 'ph', buffer(7), buffer(4))
    const healthy = moved(benchOf(), board, 'ph', buffer(7), buffer(4))
    const found = timeConstantOf(signals, meanOf(signals.slice(150, 200)), 8)
    expect(Math.abs(found / 25 - 1)).toBeLessThan(0.15)
    // published: within 60 s passes, 60–180 s warns of a dry bulb
    expect(stableAfter(healthy, stableMillivolt)).toBeLessThanOrEqual(60)
    expect(stableAfter(signals, stableMillivolt)).toBeGreaterThan(60)
    expect(stableAfter(signals, stableMillivolt)).toBeLessThanOrEqual(180)
  })

  it('is stable in a fresh buffer within 60 s on every board, from whatever it was in', () => {
    for (const from of [buffer(7), { where: 'water', celsius: 17 }, { where: 'air' }, { where: 'soil' }]) {
      for (let board = 0; board < 8; board += 1) {
        expect(
          stableAfter(moved(benchOf(), board, 'ph', from, buffer(4)), stableMillivolt),
        ).toBeLessThanOrEqual(60)
      }
    }
  })

  it('shows light and wind at once', () => {
    const bench = benchOf()
    const plan = bench.plans[2]!
    bench.put(plan, 'light', { where: 'lamp', lux: 10_000 }, 100)
    bench.put(plan, 'wind', { where: 'fan', metresPerSecond: 4 }, 100)
    bench.put(plan, 'light', { where: 'dark' }, 110)
    bench.put(plan, 'wind', { where: 'still' }, 110)
    expect(bench.measure(plan, 100).light.signal).toBeGreaterThan(10_000)
    expect(bench.measure(plan, 100).wind.signal).toBeGreaterThan(4)
    expect(bench.measure(plan, 110)).toMatchObject({ light: { signal: 0 }, wind: { signal: 0 } })
  })

  it('goes on from where it had got to when it is taken out early', () => {
    const bench = benchOf()
    const plan = bench.plans[1]!
    bench.put(plan, 'ph', buffer(7), 0)
    bench.put(plan, 'ph', buffer(4), 100)
    bench.put(plan, 'ph', buffer(7), 106)
    const [settled = 0, atTurn = 0] = [bench.measure(plan, 99).ph.signal, bench.measure(plan, 106).ph.signal]
    const wholeWay = bench.probesOf(plan).electrode.slopeShare * 57.572 * (7.032 - 4)
    // one time constant: 1 − 1/e of the way
    expect(Math.abs((atTurn - settled) / wholeWay - 0.632)).toBeLessThan(0.01)
    expect(Math.abs((bench.measure(plan, 112).ph.signal - settled) / wholeWay - 0.632 / Math.E)).toBeLessThan(
      0.01,
    )
  })
})

describe('an electrode in no buffer', () => {
  it('wanders in distilled water and is never stable', () => {
    const signals = moved(benchOf(), 2, 'ph', { where: 'air' }, { where: 'water', celsius: 17 })
    expect(stableAfter(signals, stableMillivolt)).toBe(Number.POSITIVE_INFINITY)
    for (let second = 3; second < signals.length; second += 1) {
      const four = signals.slice(second - 3, second + 1)
      expect(Math.max(...four) - Math.min(...four)).toBeGreaterThan(stableMillivolt)
    }
  })

  it('stands at the rail and hums in the air', () => {
    const signals = moved(benchOf(), 2, 'ph', buffer(4), { where: 'air' })
    expect(Math.max(...signals)).toBe(520)
    expect(signals.filter((signal) => signal === 520).length).toBeGreaterThan(30)
    expect(Math.min(...signals)).toBeGreaterThan(420)
    expect(new Set(signals).size).toBeGreaterThan(100)
  })
})
