import { z } from 'zod'
import { median } from './median.ts'
import { NEIGHBOURS_AT_MOST } from './neighbours-at-most.ts'
import { shown, shownSpan } from './number-text.ts'
import type { Finding, QualityTest, Series, Surroundings } from './quality-test.ts'
import { unbrokenFrom } from './unbroken.ts'

const SelfHeatingConfig = z.strictObject({
  /** the board warms its probe within this time after it starts */
  afterStartMs: z.number().positive(),
  startedWithinMs: z.number().positive(),
  neighbourWithinMs: z.number().positive(),
  fewestNeighbours: z.int().min(1),
  /** above the middle of the neighbours, and by so much more than just after the start → 3 */
  suspectRiseCelsius: z.number().positive(),
})
export type SelfHeatingConfig = z.infer<typeof SelfHeatingConfig>

/** The excess at the start is the middle of this many readings. */
const FIRST_READINGS = 3

/**
 * Warmed by its own board. Within minutes of a new start-up the reading climbs away from its neighbours: above their
 * median, and further above it than just after the start. Comparing with the neighbours takes the day's own warming out.
 * @see common practice, no source
 */
export const selfHeating: QualityTest<SelfHeatingConfig> = {
  name: 'self-heating',
  title: 'Warmed by its own board',
  explain:
    'A board that measures without a pause warms the sensor beside it. Right after switching on, the temperature then climbs while the soil at all other quadrats stays as it was. Measure less often, or move the sensor away.',
  source: 'common practice, no source',
  config: SelfHeatingConfig,
  defaults: {
    soil_temperature: {
      afterStartMs: 1_800_000,
      startedWithinMs: 60_000,
      neighbourWithinMs: 300_000,
      fewestNeighbours: 2,
      suspectRiseCelsius: 1,
    },
  },
  context: ({ afterStartMs, startedWithinMs, neighbourWithinMs }) => ({
    ms: Math.max(afterStartMs + startedWithinMs, neighbourWithinMs),
    readings: 1,
  }),
  asksAboutJudged: true,
  run(series, config, around, judged = { from: 0, to: series.value.length }) {
    const from = unbrokenFrom(series, 'value')
    const { value, timeMs } = series
    let start = -1
    let wasRestarted: boolean | null = false
    let firstExcesses: number[] = []
    return value.map((celsius, n): Finding => {
      if (celsius === null) return 'not evaluated'
      if (n === from[n]) start = -1
      const isRestarted = around.sameBoardRestarted(timeMs[n]!, config.startedWithinMs)
      if (isRestarted === true && (wasRestarted !== true || n === from[n])) {
        start = n
        firstExcesses = []
      }
      wasRestarted = isRestarted
      if (start === -1 || timeMs[n]! - timeMs[start]! > config.afterStartMs)
        return isRestarted === null ? 'not evaluated' : null
      // asking all neighbours is most of the work
      if (firstExcesses.length === FIRST_READINGS && (n < judged.from || n >= judged.to)) return null
      const excess = excessCelsius(series, n, config, around)
      if (excess === null) return 'not evaluated'
      if (firstExcesses.length < FIRST_READINGS) firstExcesses.push(excess)
      const rise = excess - median(firstExcesses)
      if (excess <= 0 || rise <= config.suspectRiseCelsius) return null
      const text = `${shown(excess)} °C above its neighbours, ${shown(rise)} °C more than ${shownSpan(timeMs[n]! - timeMs[start]!)} ago when the board started`
      return { test: 'self-heating', flag: 3, text }
    })
  },
}

function excessCelsius(
  { timeMs, value }: Series,
  n: number,
  { neighbourWithinMs, fewestNeighbours }: SelfHeatingConfig,
  around: Surroundings,
): number | null {
  const neighbours = around.neighbours(timeMs[n]!, neighbourWithinMs)
  if (neighbours.length < Math.min(fewestNeighbours, NEIGHBOURS_AT_MOST)) return null
  return value[n]! - median(neighbours.map((neighbour) => neighbour.value))
}
