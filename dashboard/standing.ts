import type { ChannelNow } from '../hub/contract/reading.ts'
import { ageText } from './format-time.ts'

/** How a channel's newest reading stands, in the order in which it worries. */
export type Standing = 'missing' | 'fail' | 'suspect' | 'uncalibrated' | 'unchecked' | 'clean'

export const standingWords: Record<Standing, string> = {
  missing: 'no reading',
  fail: 'fail',
  suspect: 'suspect',
  uncalibrated: 'not calibrated',
  unchecked: 'not checked',
  clean: 'clean',
}

export const flagMeaning: Record<number, string> = {
  1: 'passed every test',
  2: 'not tested',
  3: 'suspect: look before you use it',
  4: 'failed: the sensor cannot have read this',
  9: 'missing',
}

export function standingOf(channel: ChannelNow | undefined): Standing {
  if (!channel?.latest) return 'missing'
  const flag = channel.latest[6]
  if (flag === 9) return 'missing'
  if (flag === 4) return 'fail'
  if (channel.calibration === null) return 'uncalibrated'
  if (channel.latest[4] === null) return flag === 3 ? 'suspect' : 'uncalibrated'
  if (flag === 3) return 'suspect'
  return flag === 2 ? 'unchecked' : 'clean'
}

/** A board that says nothing for three of its intervals is late; without a known interval, after three minutes. */
export function isLate(channel: ChannelNow, nowMs: number, intervalSeconds: number | undefined): boolean {
  if (!channel.latest) return false
  return nowMs - channel.latest[2] > 3000 * (intervalSeconds ?? 60)
}

/** How long ago a late channel was heard, in words; null when it is not late. */
export function lateAgeOf(
  channel: ChannelNow | undefined,
  nowMs: number,
  intervalSeconds: number | undefined,
): string | null {
  if (!channel?.latest || !isLate(channel, nowMs, intervalSeconds)) return null
  return ageText(channel.latest[2], nowMs)
}

/** The channel to show where several probes measure the same: the one heard last. */
export function newestOf(channels: readonly ChannelNow[]): ChannelNow | undefined {
  return channels.reduce<ChannelNow | undefined>(
    (newest, channel) => ((channel.latest?.[2] ?? -1) > (newest?.latest?.[2] ?? -2) ? channel : newest),
    undefined,
  )
}
