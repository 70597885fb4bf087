import { z } from 'zod'
import { exceeds } from './exceeds.ts'
import { shownSpan } from './number-text.ts'
import type { Finding, QualityTest, Series, Surroundings } from './quality-test.ts'
import { SlidingExtremes } from './sliding-extremes.ts'
import { unbrokenFrom } from './unbroken.ts'

/** Both must be reached. */
const Stillness = z.strictObject({ repeats: z.int().positive(), durationMs: z.number().min(0) })
type Stillness = z.infer<typeof Stillness>

const FlatLineConfig = z.strictObject({
  /** the raw signal shows a stuck converter best; a value may be rounded */
  compares: z.enum(['signal', 'value']),
  /** in the unit of what is compared: readings this close count as equal */
  tolerance: z.number().min(0),
  suspect: Stillness.nullable(),
  fail: Stillness.nullable(),
  /** for light: a sun lower than this, and numbers below the second limit, stand still by right; null: no such thing */
  daylight: z.strictObject({ sunAboveDegrees: z.number(), judgedFromSignal: z.number().min(0) }).nullable(),
})
export type FlatLineConfig = z.infer<typeof FlatLineConfig>

const sixtySame: FlatLineConfig = {
  compares: 'signal',
  tolerance: 0,
  suspect: { repeats: 60, durationMs: 0 },
  fail: null,
  daylight: null,
}

/**
 * Stuck: within the tolerance of each of the `repeats` readings before it, over at least `durationMs`. Follows the
 * manual's loop (six equal values for a count of five), not its prose. What came before keeps its flag.
 * @see IOOS QARTOD manuals, flat line test
 */
export const flatLine: QualityTest<FlatLineConfig> = {
  name: 'flat-line',
  title: 'Stuck',
  explain:
    'A living signal trembles a little. One that repeats the same number to the last digit comes from a stuck sensor or a board that sends an old value again. Night is dark and deep soil is steady: those are no faults.',
  source: 'IOOS QARTOD manuals, flat line test (its loop); counts and times are common practice, no source',
  config: FlatLineConfig,
  defaults: {
    soil_ph: sixtySame,
    soil_moisture: sixtySame,
    illuminance: {
      ...sixtySame,
      suspect: { repeats: 5, durationMs: 60_000 },
      daylight: { sunAboveDegrees: 10, judgedFromSignal: 200 },
    },
    soil_temperature: { ...sixtySame, suspect: { repeats: 12, durationMs: 86_400_000 } },
  },
  looksBackOnly: true,
  context: ({ suspect, fail }) => ({
    ms: Math.max(suspect?.durationMs ?? 0, fail?.durationMs ?? 0),
    readings: Math.max(suspect?.repeats ?? 0, fail?.repeats ?? 0),
  }),
  run(series, config, around) {
    const found: Finding[] = series.value.map((value) =>
      config.compares === 'value' && value === null ? 'not evaluated' : null,
    )
    if (config.suspect) mark(3, config.suspect, series, config, around, found)
    if (config.fail) mark(4, config.fail, series, config, around, found)
    return found
  },
}

function mark(
  flag: 3 | 4,
  still: Stillness,
  series: Series,
  config: FlatLineConfig,
  around: Surroundings,
  found: Finding[],
): void {
  const { timeMs } = series
  const compared: readonly (number | null)[] = config.compares === 'signal' ? series.signal : series.value
  const from = unbrokenFrom(series, config.compares)
  const window = new SlidingExtremes(compared)
  let longAgo = -1
  for (let n = 0; n < compared.length; n++) {
    while (longAgo < n && timeMs[longAgo + 1]! <= timeMs[n]! - still.durationMs) longAgo += 1
    const here = compared[n]
    if (here === null || here === undefined) continue
    window.add(n)
    const first = Math.min(n - still.repeats, longAgo)
    window.dropBefore(first)
    if (first < from[n]!) continue
    const spread = Math.max(window.highest - here, here - window.lowest)
    if (exceeds(spread, config.tolerance, config.tolerance === 0 ? 0 : here)) continue
    if (config.daylight && standsStillByRight(series, n, config.daylight, around)) continue
    const text = `the same ${config.compares}, ${here}, ${n - first + 1} times in ${shownSpan(timeMs[n]! - timeMs[first]!)}`
    found[n] = { test: 'flat-line', flag, text }
  }
}

/** Dim light changes by less than a step of the sensor; zero is a fault only when the sun is known to be up. */
function standsStillByRight(
  { signal, timeMs }: Series,
  n: number,
  { sunAboveDegrees, judgedFromSignal }: NonNullable<FlatLineConfig['daylight']>,
  around: Surroundings,
): boolean {
  const sunDegrees = around.solarElevationDegrees(timeMs[n]!)
  if (sunDegrees !== null && sunDegrees < sunAboveDegrees) return true
  if (signal[n] === 0) return sunDegrees === null
  return Math.abs(signal[n]!) < judgedFromSignal
}
