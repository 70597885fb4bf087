import { z } from 'zod'
import { isBareElectrode, millivoltPerUnit } from './electrode-millivolt.ts'
import { median } from './median.ts'
import { shown } from './number-text.ts'
import type { Finding, QualityTest, Series } from './quality-test.ts'
import { unbrokenFrom } from './unbroken.ts'

const PhElectrodeOpenConfig = z
  .strictObject({
    /** a bare electrode beyond this, either way → 4 */
    railMillivolt: z.number().positive(),
    /** standard deviation from reading to reading: more → 3 and 4 */
    suspectNoiseMillivolt: z.number().positive(),
    failNoiseMillivolt: z.number().positive(),
  })
  .refine(({ suspectNoiseMillivolt, failNoiseMillivolt }) => suspectNoiseMillivolt <= failNoiseMillivolt)
export type PhElectrodeOpenConfig = z.infer<typeof PhElectrodeOpenConfig>

/** Readings to either side. */
const REACH = 4
const FEWEST_DIFFERENCES = 4
/** Median of |second difference| over the standard deviation of white noise: 0.6745 · √6. */
const MEDIAN_PER_DEVIATION = 0.6745 * Math.sqrt(6)

/**
 * No electrode on the wire: the amplifier sits at its rail, or its open input picks up the mains. The noise is taken from
 * second differences about each reading, which a drift and a single step leave alone.
 * @see limits: common practice, no source; von Neumann 1941, Ann. Math. Stat. 12, 367–395 for noise from differences
 */
export const phElectrodeOpen: QualityTest<PhElectrodeOpenConfig> = {
  name: 'ph-electrode-open',
  title: 'Electrode not connected',
  explain:
    'Without an electrode the amplifier listens to the air: it hums with the mains, or leans against the end of its range. The number looks like a pH, but nothing has been measured.',
  source: 'common practice, no source',
  config: PhElectrodeOpenConfig,
  defaults: { soil_ph: { railMillivolt: 500, suspectNoiseMillivolt: 4, failNoiseMillivolt: 12 } },
  context: () => ({ ms: 0, readings: REACH + 1 }),
  run(series, config) {
    const perUnit = millivoltPerUnit(series)
    const from = unbrokenFrom(series, 'signal')
    const { signal, value } = series
    if (perUnit === null) return new Array<Finding>(signal.length).fill('not evaluated')
    const differences = secondDifferences(series, from)
    return signal.map((own, n): Finding => {
      const millivolt = own * perUnit
      const ph = value[n] ?? null
      if (ph !== null && Math.abs(millivolt) > config.railMillivolt && isBareElectrode(millivolt, ph))
        return found(4, `${shown(millivolt)} mV is the rail of the amplifier: nothing is connected`)
      const noise = perUnit * noiseAround(differences, from, n)
      if (Number.isNaN(noise)) return 'not evaluated'
      if (noise <= config.suspectNoiseMillivolt) return null
      const flag = noise > config.failNoiseMillivolt ? 4 : 3
      return found(
        flag,
        `the signal scatters by ${shown(noise)} mV from reading to reading: a loose or open wire`,
      )
    })
  },
}

function found(flag: 3 | 4, text: string): Finding {
  return { test: 'ph-electrode-open', flag, text }
}

/** At the middle of three; NaN beside a gap. */
function secondDifferences({ signal }: Series, from: Int32Array): Float64Array {
  const differences = new Float64Array(signal.length).fill(Number.NaN)
  for (let n = 1; n + 1 < signal.length; n++)
    if (from[n + 1]! < n) differences[n] = Math.abs(signal[n - 1]! - 2 * signal[n]! + signal[n + 1]!)
  return differences
}

/** Over the readings to either side that no gap parts from this one; NaN where they are too few. */
function noiseAround(differences: Float64Array, from: Int32Array, n: number): number {
  const last = Math.min(differences.length - 1, n + REACH)
  const usable: number[] = []
  for (let at = Math.max(0, n - REACH); at <= last; at++) {
    const size = differences[at]!
    if (from[at] === from[n] && !Number.isNaN(size)) usable.push(size)
  }
  return usable.length < FEWEST_DIFFERENCES ? Number.NaN : median(usable) / MEDIAN_PER_DEVIATION
}
