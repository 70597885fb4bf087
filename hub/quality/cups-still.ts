import { z } from 'zod'
import { shown, shownSpan } from './number-text.ts'
import type { Finding, QualityTest, Series, Surroundings } from './quality-test.ts'
import { unbrokenFrom } from './unbroken.ts'

const CupsStillConfig = z.strictObject({
  stillForMs: z.number().positive(),
  /** mean over the same time at the nearest other anemometer */
  neighbourAboveMetresPerSecond: z.number().positive(),
  neighbourWithinMs: z.number().positive(),
  neighbourWithinMetres: z.number().positive(),
})
export type CupsStillConfig = z.infer<typeof CupsStillConfig>

/**
 * No wind at all for half an hour while the nearest other anemometer turns: ice, a web, grit, a twig. Only suspect:
 * a hollow can be that sheltered. The nearest counts, since a wood and a bank do not feel the same wind.
 * @see common practice, no source
 */
export const cupsStill: QualityTest<CupsStillConfig> = {
  name: 'cups-still',
  title: 'Cups stand still',
  explain:
    'Your cups have not turned for half an hour, and the ones next to you never stopped. Look for ice, a spider’s web or a twig. Zero wind beside zero wind is just calm.',
  source: 'common practice, no source',
  config: CupsStillConfig,
  defaults: {
    wind_speed: {
      stillForMs: 1_800_000,
      neighbourAboveMetresPerSecond: 1.5,
      neighbourWithinMs: 60_000,
      neighbourWithinMetres: 50,
    },
  },
  context: ({ stillForMs, neighbourWithinMs }) => ({
    ms: Math.max(stillForMs, neighbourWithinMs),
    readings: 1,
  }),
  run(series, config, around) {
    const from = unbrokenFrom(series, 'value')
    const { value, timeMs } = series
    const found = value.map((each): Finding => (each === null ? 'not evaluated' : null))
    for (let start = 0; start < value.length; ) {
      let end = start
      while (value[start] === 0 && value[end + 1] === 0 && from[end + 1] === from[start]) end += 1
      if (value[start] === 0 && timeMs[end]! - timeMs[start]! >= config.stillForMs)
        judgeRun(series, start, end, config, around, found)
      start = end + 1
    }
    return found
  },
}

/** A still time long enough: what did the neighbour feel about each of its readings? */
function judgeRun(
  { timeMs }: Series,
  start: number,
  end: number,
  config: CupsStillConfig,
  around: Surroundings,
  found: Finding[],
): void {
  const count = end - start + 1
  const sums = new Float64Array(count + 1)
  const known = new Int32Array(count + 1)
  for (let at = 0; at < count; at++) {
    const speed = nearest(around, timeMs[start + at]!, config)
    sums[at + 1] = sums[at]! + (speed ?? 0)
    known[at + 1] = known[at]! + (speed === null ? 0 : 1)
  }
  for (let at = 0, low = 0, high = 0; at < count; at++) {
    while (timeMs[start + low]! < timeMs[start + at]! - config.stillForMs) low += 1
    while (high < count && timeMs[start + high]! <= timeMs[start + at]! + config.stillForMs) high += 1
    const sightings = known[high]! - known[low]!
    const mean = (sums[high]! - sums[low]!) / sightings
    if (sightings === 0) found[start + at] = 'not evaluated'
    else if (mean > config.neighbourAboveMetresPerSecond)
      found[start + at] = {
        test: 'cups-still',
        flag: 3,
        text: `no wind for at least ${shownSpan(config.stillForMs)} while the nearest anemometer shows ${shown(mean)} m/s`,
      }
  }
}

function nearest(around: Surroundings, timeMs: number, config: CupsStillConfig): number | null {
  let best: number | null = null
  let bestMetres = config.neighbourWithinMetres
  for (const { distanceMetres, value } of around.neighbours(timeMs, config.neighbourWithinMs))
    if (distanceMetres < bestMetres || (distanceMetres === bestMetres && best === null)) {
      best = value
      bestMetres = distanceMetres
    }
  return best
}
