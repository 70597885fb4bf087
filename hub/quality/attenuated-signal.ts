import { z } from 'zod'
import { shown, shownSpan } from './number-text.ts'
import type { Finding, QualityTest, Series } from './quality-test.ts'
import { SlidingExtremes } from './sliding-extremes.ts'
import { unbrokenFrom } from './unbroken.ts'

const AttenuatedSignalConfig = z
  .strictObject({
    windowMs: z.number().positive(),
    spreadIs: z.enum(['range', 'standard deviation']),
    /** in the unit of the quantity: a spread below it → 3 */
    suspectBelow: z.number().min(0),
    /** in the unit of the quantity: a spread below it → 4 */
    failBelow: z.number().min(0),
  })
  .refine(({ suspectBelow, failBelow }) => failBelow <= suspectBelow, 'what fails spreads at most as much')
export type AttenuatedSignalConfig = z.infer<typeof AttenuatedSignalConfig>

/**
 * Too little life over a whole window: a covered or silted sensor still moves in its last digits, so it is not stuck.
 * Not evaluated until a window is full. Standard deviation: of the sample, divisor n − 1. Equality passes.
 * @see IOOS QARTOD manuals, attenuated signal test (MIN_VAR_WARN, MIN_VAR_FAIL over TST_TIM)
 */
export const attenuatedSignal: QualityTest<AttenuatedSignalConfig> = {
  name: 'attenuated-signal',
  title: 'Muffled',
  explain:
    'A light sensor that sees no difference between noon and midnight is under a leaf, in a bag or asleep. The number trembles, so it is not stuck, but it says nothing about the place.',
  source: 'IOOS QARTOD manuals, attenuated signal test; the limits are common practice, no source',
  config: AttenuatedSignalConfig,
  defaults: {
    illuminance: { windowMs: 86_400_000, spreadIs: 'range', suspectBelow: 10, failBelow: 1 },
  },
  looksBackOnly: true,
  context: ({ windowMs }) => ({ ms: windowMs, readings: 1 }),
  run(series, config) {
    const spreads = config.spreadIs === 'range' ? windowRanges : windowDeviations
    return spreads(series, config.windowMs).map((spread): Finding => {
      if (Number.isNaN(spread)) return 'not evaluated'
      if (spread >= config.suspectBelow) return null
      const isFail = spread < config.failBelow
      const limit = isFail ? config.failBelow : config.suspectBelow
      const text = `the ${config.spreadIs} over ${shownSpan(config.windowMs)} is ${shown(spread)}; at least ${shown(limit)} is expected`
      return { test: 'attenuated-signal', flag: isFail ? 4 : 3, text }
    })
  },
}

/** NaN where the window is not full. */
function windowRanges(series: Series, windowMs: number): number[] {
  const window = new SlidingExtremes(series.value)
  return overWindows(series, windowMs, {
    add: (n) => window.add(n),
    drop: (n) => window.dropBefore(n + 1),
    spread: () => window.highest - window.lowest,
  })
}

function windowDeviations(series: Series, windowMs: number): number[] {
  const { value } = series
  // about a number near all of them, so that squares do not drown what they differ by
  let centre = 0
  let count = 0
  let sum = 0
  let squares = 0
  return overWindows(series, windowMs, {
    add(n) {
      if (count === 0) {
        centre = value[n]!
        sum = 0
        squares = 0
      }
      const from = value[n]! - centre
      count += 1
      sum += from
      squares += from * from
    },
    drop(n) {
      const from = value[n]! - centre
      count -= 1
      sum -= from
      squares -= from * from
    },
    spread: () =>
      count < 2 ? Number.NaN : Math.sqrt(Math.max(0, squares - (sum * sum) / count) / (count - 1)),
  })
}

interface Moving {
  add(index: number): void
  drop(index: number): void
  spread(): number
}

function overWindows(series: Series, windowMs: number, moving: Moving): number[] {
  const { timeMs, value } = series
  const from = unbrokenFrom(series, 'value')
  let first = 0
  return value.map((here, n) => {
    if (here === null) {
      for (; first < n; first++) moving.drop(first)
      first = n + 1
      return Number.NaN
    }
    for (; first < from[n]!; first++) moving.drop(first)
    moving.add(n)
    // the reading at the window's far end stays in, so that a full window reaches all the way back
    for (; first < n && timeMs[first + 1]! <= timeMs[n]! - windowMs; first++) moving.drop(first)
    return timeMs[first]! <= timeMs[n]! - windowMs ? moving.spread() : Number.NaN
  })
}
