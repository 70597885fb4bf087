import { type HeldSample, judgeSteadiness, type SteadyRule } from '../../../calibration/index.ts'
import { numberText, unitText } from '../../format.ts'
import { spanText } from '../../format-time.ts'
import { windowOf } from './hold.ts'

/** How a held signal stands, for a ring and in words. */
export interface Settling {
  isSteady: boolean
  /** 0 open … 1 closed */
  closed: number
  words: string
}

/** Share of the ring that stands for “enough signals seen”. */
const SEEN_SHARE = 0.35
/** Not closed before it is steady. */
const NEARLY = 0.97

/** Says what still moves, by how much, and how much is allowed. */
export function describeSettling(
  samples: readonly HeldSample[],
  rule: SteadyRule,
  signalUnit: string,
): Settling {
  if (samples.length === 0) return { isSteady: false, closed: 0, words: 'waiting for a signal' }
  const judged = judgeSteadiness(samples, rule)
  const unit = signalUnit === '' ? '' : ` ${unitText(signalUnit)}`
  if (judged.value === null || judged.span === null) {
    const seconds = samples.at(-1)!.seconds - samples[0]!.seconds
    const seen = Math.min(samples.length / rule.minimumSamples, seconds / rule.windowSeconds, 1)
    const missing = rule.minimumSamples - samples.length
    const words =
      missing > 0
        ? `watching: ${samples.length} of ${rule.minimumSamples} signals`
        : `watching: ${Math.floor(seconds)} of ${rule.windowSeconds} s`
    return { isSteady: false, closed: SEEN_SHARE * Math.max(0.02, seen), words }
  }
  const window = windowOf(samples, rule)
  const seconds = window.at(-1)!.seconds - window[0]!.seconds
  const allowed = Math.max(rule.span, (rule.relativeSpan ?? 0) * Math.abs(judged.value))
  const decimals = allowed >= 10 ? 0 : allowed >= 1 ? 1 : 2
  const over = spanText(Math.max(1, Math.round(seconds)) * 1000)
  if (judged.steady) {
    return {
      isSteady: true,
      closed: 1,
      words: `steady: within ${numberText(judged.span, decimals)}${unit} for ${over}`,
    }
  }
  const rate = judged.ratePerMinute ?? 0
  const nearBySpan = judged.span === 0 ? 1 : allowed / judged.span
  const isSpanTooWide = nearBySpan < 1
  const nearByRate = rule.ratePerMinute === undefined || rate === 0 ? 1 : rule.ratePerMinute / Math.abs(rate)
  const closed = SEEN_SHARE + (1 - SEEN_SHARE) * Math.min(NEARLY, nearBySpan, nearByRate)
  const drifted = Math.abs(rate / 60) * seconds
  const direction = drifted < 0.7 * judged.span ? 'wandering' : rate < 0 ? 'falling' : 'rising'
  const words =
    !isSpanTooWide && rule.ratePerMinute !== undefined
      ? `still ${rate < 0 ? 'falling' : 'rising'}: ${numberText(Math.abs(rate), 2)}${unit} a minute, ${numberText(rule.ratePerMinute, 2)} is allowed`
      : `still ${direction}: ${numberText(judged.span, decimals)}${unit} in ${over}, ${numberText(allowed, decimals)} is allowed`
  return { isSteady: false, closed, words }
}
