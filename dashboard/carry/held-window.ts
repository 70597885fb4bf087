import { type HeldSample, judgeSteadiness, type SteadyRule } from '../../calibration/index.ts'
import type { HeldReplicate } from '../../hub/contract/spot.ts'
import { windowOf } from '../bench/hold/hold.ts'

/** One reading of a carried probe as it came over the live stream. `timeMs` is hub time, UTC. */
export interface LiveReading {
  id: number
  timeMs: number
  signal: number
  value: number | null
  uncertainty: number | null
  flag: number
}

/** A replicate as it would be kept: its span for the hub, and what this phone makes of it meanwhile. */
export interface HeldWindow {
  held: HeldReplicate
  /** mean, in the unit of the quantity; null without a calibration */
  value: number | null
  /** standard uncertainty of probe and calibration */
  uncertainty: number | null
}

/** Values where there is a calibration, otherwise the signals: never both in one list. */
export function samplesOf(readings: readonly LiveReading[]): { samples: HeldSample[]; isValue: boolean } {
  const isValue = readings.at(-1)?.value != null
  const samples = readings.flatMap(({ timeMs, signal, value }) =>
    isValue && value === null ? [] : [{ seconds: timeMs / 1000, value: isValue ? value! : signal }],
  )
  return { samples, isValue }
}

/**
 * The stretch of readings to keep: those the steadiness rule looked at, by their own times. `to` is exclusive, so it
 * lies a millisecond after the last of them.
 * @param readings  of this insertion, rising in time
 * @returns null without a reading
 */
export function heldWindow(readings: readonly LiveReading[], rule: SteadyRule): HeldWindow | null {
  const { samples } = samplesOf(readings)
  const window = windowOf(samples, rule)
  const [first, last] = [window[0], window.at(-1)]
  if (!first || !last) return null
  const fromMs = Math.round(first.seconds * 1000)
  const toMs = Math.round(last.seconds * 1000) + 1
  const within = readings.filter(({ timeMs }) => timeMs >= fromMs && timeMs < toMs)
  const valued = within.filter(({ value, flag }) => value !== null && flag !== 4)
  const clean = valued.filter(({ flag }) => flag !== 3)
  const counted = clean.length > 0 ? clean : valued
  return {
    held: {
      from: new Date(fromMs).toISOString(),
      to: new Date(toMs).toISOString(),
      isSteady: judgeSteadiness(samples, rule).steady,
    },
    value: meanOf(counted.map(({ value }) => value!)),
    uncertainty: meanOf(counted.flatMap(({ uncertainty }) => uncertainty ?? [])),
  }
}

function meanOf(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length
}
