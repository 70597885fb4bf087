/** One held signal or value, with its time. */
export interface HeldSample {
  seconds: number
  value: number
}

/** When a held probe counts as steady. */
export interface SteadyRule {
  /** the last so many seconds are looked at */
  windowSeconds: number
  /** at least so many samples in them */
  minimumSamples: number
  /** highest minus lowest, in the quantity's unit */
  span: number
  /** or as a share of the mean, where the quantity spans decades; the wider of the two counts */
  relativeSpan?: number
  /** slope of a straight line through the window, per minute, either way */
  ratePerMinute?: number
}

/** Rules by quantity; `soil_ph_buffer` is stricter than the soil itself. Each may be edited. */
export const STEADY_RULES: Readonly<Record<string, SteadyRule>> = {
  soil_ph_buffer: { windowSeconds: 15, minimumSamples: 4, span: 0.02 },
  soil_ph: { windowSeconds: 15, minimumSamples: 4, span: 0.05 },
  soil_moisture: { windowSeconds: 5, minimumSamples: 3, span: 0.01 },
  illuminance: { windowSeconds: 2, minimumSamples: 2, span: 2, relativeSpan: 0.1 },
  soil_temperature: { windowSeconds: 60, minimumSamples: 4, span: 0.125, ratePerMinute: 0.1 },
}

export interface Steadiness {
  steady: boolean
  /** mean of the window; null when it is not yet full */
  value: number | null
  span: number | null
  ratePerMinute: number | null
  sampleCount: number
}

/** A window may be a twentieth short: boards do not sample to the millisecond. */
const WINDOW_SLACK = 0.95

/**
 * Looks at the newest samples and says whether the probe has settled.
 * @param samples  rising in time, finite; fewer than the rule asks for is simply not steady
 * Spans and rates are compared after rounding to 0.001, so that 5.93 − 5.91 is 0.02.
 * @example pH 5.93 5.92 5.91 5.91 at 5 s steps spans 0.02: steady, mean 5.9175
 */
export function judgeSteadiness(samples: readonly HeldSample[], rule: SteadyRule): Steadiness {
  const window = newestWindow(samples, rule)
  if (window === null)
    return { steady: false, value: null, span: null, ratePerMinute: null, sampleCount: samples.length }
  const values = window.map((sample) => sample.value)
  const value = values.reduce((sum, each) => sum + each, 0) / values.length
  const span = thousandth(Math.max(...values) - Math.min(...values))
  const ratePerMinute = thousandth(slopePerSecond(window) * 60)
  const allowed = Math.max(rule.span, (rule.relativeSpan ?? 0) * Math.abs(value))
  const steady =
    Number.isFinite(value) &&
    span <= thousandth(allowed) &&
    (rule.ratePerMinute === undefined || Math.abs(ratePerMinute) <= rule.ratePerMinute)
  return { steady, value, span, ratePerMinute, sampleCount: window.length }
}

/** True when the newest samples satisfy the rule. */
export function isSteady(samples: readonly HeldSample[], rule: SteadyRule): boolean {
  return judgeSteadiness(samples, rule).steady
}

/** The first moment at which the samples up to it were steady, and the value then; null when they never were. */
export function firstSteady(
  samples: readonly HeldSample[],
  rule: SteadyRule,
): { seconds: number; value: number } | null {
  for (let end = 1; end <= samples.length; end++) {
    const { steady, value } = judgeSteadiness(samples.slice(0, end), rule)
    if (steady && value !== null) return { seconds: samples[end - 1]!.seconds, value }
  }
  return null
}

function newestWindow(samples: readonly HeldSample[], rule: SteadyRule): readonly HeldSample[] | null {
  const newest = samples.at(-1)
  if (newest === undefined) return null
  for (let from = samples.length - 1; from >= 0; from--) {
    const covered = newest.seconds - samples[from]!.seconds >= rule.windowSeconds * WINDOW_SLACK
    if (covered && samples.length - from >= rule.minimumSamples) return samples.slice(from)
  }
  return null
}

function slopePerSecond(window: readonly HeldSample[]): number {
  const n = window.length
  const meanSeconds = window.reduce((sum, each) => sum + each.seconds, 0) / n
  let above = 0
  let below = 0
  for (const sample of window) {
    above += (sample.seconds - meanSeconds) * sample.value
    below += (sample.seconds - meanSeconds) ** 2
  }
  return below === 0 ? 0 : above / below
}

function thousandth(number: number): number {
  return Math.round(number * 1000) / 1000
}
