import { z } from 'zod'
import { millivoltPerUnit } from './electrode-millivolt.ts'
import { shown, shownSpan } from './number-text.ts'
import type { Finding, QualityTest, Series } from './quality-test.ts'
import { unbrokenFrom } from './unbroken.ts'

const PhElectrodeDryConfig = z.strictObject({
  windowMs: z.number().positive(),
  /** one way over the window by more than this → 3 */
  creepMillivolt: z.number().positive(),
  /** of the whole way, at most this share within one sixth of the window: more is a step, or an electrode settling well */
  largestStepShare: z.number().min(0).max(1),
})
export type PhElectrodeDryConfig = z.infer<typeof PhElectrodeDryConfig>

const PARTS = 6

/**
 * A bulb that dried out creeps for minutes where a good one settles within one or two. The window is cut into six equal
 * parts; a creep is when their means go one way all along, far enough, and no single step makes up most of it.
 * Every reading of such a window is suspect.
 * @see common practice, no source
 */
export const phElectrodeDry: QualityTest<PhElectrodeDryConfig> = {
  name: 'ph-electrode-dry',
  title: 'Electrode creeps',
  explain:
    'A wet glass bulb answers within a minute. One that dried out creeps towards its answer for many minutes and may never get there. Soak it in storage solution and measure again.',
  source: 'common practice, no source',
  config: PhElectrodeDryConfig,
  defaults: { soil_ph: { windowMs: 360_000, creepMillivolt: 3, largestStepShare: 0.5 } },
  context: ({ windowMs }) => ({ ms: windowMs, readings: 1 }),
  run(series, config) {
    const { timeMs } = series
    const from = unbrokenFrom(series, 'signal')
    const perUnit = millivoltPerUnit(series)
    if (perUnit === null) return new Array<Finding>(timeMs.length).fill('not evaluated')
    const means = new PartMeans(series, config.windowMs / PARTS)
    const firsts = new Int32Array(timeMs.length).fill(-1)
    const isCreep = new Uint8Array(timeMs.length)
    for (let n = 0; n < timeMs.length; n++) {
      const first = means.moveTo(n)
      // with a reading before its first one the window is full, and that reading belongs to it
      if (first <= from[n]!) continue
      firsts[n] = first - 1
      const creptMillivolt = perUnit * creep(means.mean, config.largestStepShare)
      isCreep[n] = creptMillivolt > config.creepMillivolt ? 1 : 0
    }
    return findings(firsts, isCreep, config)
  },
}

/** The way between first and last part; 0 when it is not one way all along, or most of it is one step. */
function creep(mean: Float64Array, largestStepShare: number): number {
  const way = mean[PARTS - 1]! - mean[0]!
  for (let part = 1; part < PARTS; part++) {
    const step = (mean[part]! - mean[part - 1]!) / way
    if (!(step > 0 && step <= largestStepShare)) return 0
  }
  return Math.abs(way)
}

/** A reading is suspect when any window it lies in creeps, and passes when one was looked at and none did. */
function findings(
  firsts: Int32Array,
  isCreep: Uint8Array,
  { windowMs, creepMillivolt }: PhElectrodeDryConfig,
): Finding[] {
  const text = `the signal creeps one way for ${shownSpan(windowMs)}, by more than ${shown(creepMillivolt)} mV: the electrode is slow`
  const found = new Array<Finding>(firsts.length).fill('not evaluated')
  let seenFrom = firsts.length
  let creptFrom = firsts.length
  for (let n = firsts.length - 1; n >= 0; n--) {
    const first = firsts[n]!
    if (first !== -1) seenFrom = Math.min(seenFrom, first)
    if (isCreep[n] === 1) creptFrom = Math.min(creptFrom, first)
    if (n >= creptFrom) found[n] = { test: 'ph-electrode-dry', flag: 3, text }
    else if (n >= seenFrom) found[n] = null
  }
  return found
}

/** Means of the signal in the six parts of the window (t − 6 parts, t], each with at least one reading. */
class PartMeans {
  readonly mean = new Float64Array(PARTS)
  readonly #series: Series
  readonly #partMs: number
  readonly #sums: Float64Array
  /** index of the first reading later than t − k parts */
  readonly #edges = new Int32Array(PARTS + 1)

  constructor(series: Series, partMs: number) {
    this.#series = series
    this.#partMs = partMs
    this.#sums = new Float64Array(series.signal.length + 1)
    const origin = series.signal[0] ?? 0
    for (let n = 0; n < series.signal.length; n++)
      this.#sums[n + 1] = this.#sums[n]! + series.signal[n]! - origin
  }

  /** @returns index of the window's first reading, or −1 when a part is empty */
  moveTo(n: number): number {
    const { timeMs } = this.#series
    this.#edges[0] = n + 1
    for (let part = 1; part <= PARTS; part++) {
      let edge = this.#edges[part]!
      while (timeMs[edge]! <= timeMs[n]! - part * this.#partMs) edge += 1
      this.#edges[part] = edge
      const end = this.#edges[part - 1]!
      if (edge >= end) return -1
      this.mean[PARTS - part] = (this.#sums[end]! - this.#sums[edge]!) / (end - edge)
    }
    return this.#edges[PARTS]!
  }
}
