import { type Refusal, refuse } from '../refusal.ts'
import { type CupFactor, refuseFactor, refusePulses, windFromHertz } from './cup-wind.ts'
import { findBounce } from './wind-bounce.ts'

/** A gust is the largest mean over this many seconds (WMO-No. 8 Part I ch. 5). */
export const GUST_SECONDS = 3

export interface WindSummary {
  /** mean of the block means, a block without pulses counting as 0 */
  meanMetresPerSecond: number
  calmPercent: number
  /** largest mean over three seconds; null with fewer than three */
  gustMetresPerSecond: number | null
  /** index of the gust's last second */
  gustEndsAtSecond: number | null
  blockSeconds: number
  blockMeansMetresPerSecond: number[]
  /** means over 2 and over 10 minutes, each whole run of them in turn */
  twoMinuteMeansMetresPerSecond: number[]
  tenMinuteMeansMetresPerSecond: number[]
  /** all pulses over all seconds at once: hides calm blocks, given for comparison */
  wholeIntervalMetresPerSecond: number
  /** seconds left out because the switch probably bounced; their neighbours are taken as following each other */
  suspectSeconds: number[]
  meanIncludesSuspectSeconds: boolean
}

/**
 * Pulses counted each second to mean wind, gust and calm.
 * @param counts  whole, 0 or more, one per second, at least one
 * @param factor  cup offset and slope
 * @param blockSeconds  averaging block in which no pulses mean calm, 60 by default
 * @see WMO-No. 8 Part I ch. 5: 10-minute mean, gust as the largest 3-second running mean; ISO 17713-1 for the line
 * @example U = 0.30 + 0.66 f, ten 1-minute blocks, two without pulses, 1380 pulses: 1.76 m/s, calm 20 %
 */
export function summariseWind(
  counts: readonly number[],
  factor: CupFactor,
  blockSeconds = 60,
): WindSummary | Refusal {
  const bad = refuseFactor(factor)
  if (bad !== null) return bad
  if (counts.length === 0) return refuse('E_POINTS_FEW', 'No second was counted.')
  for (const count of counts) {
    const refusal = refusePulses(count)
    if (refusal !== null) return refusal
  }
  if (!Number.isInteger(blockSeconds) || blockSeconds < 1) {
    return refuse('E_INTERVAL', `A block of ${blockSeconds} s; it is a whole number of seconds, 1 or more.`)
  }
  const suspectSeconds = findBounce(counts)
  const suspect = new Set(suspectSeconds)
  const blocks = blockMeans(counts, suspect, factor, blockSeconds)
  const gust = findGust(counts, suspect, factor)
  const kept = counts.filter((_, second) => !suspect.has(second))
  return {
    meanMetresPerSecond: mean(blocks),
    calmPercent: (100 * blocks.filter((speed) => speed === 0).length) / blocks.length,
    gustMetresPerSecond: gust?.metresPerSecond ?? null,
    gustEndsAtSecond: gust?.endsAtSecond ?? null,
    blockSeconds,
    blockMeansMetresPerSecond: blocks,
    twoMinuteMeansMetresPerSecond: meansOver(blocks, 120 / blockSeconds),
    tenMinuteMeansMetresPerSecond: meansOver(blocks, 600 / blockSeconds),
    wholeIntervalMetresPerSecond: windFromHertz(mean(kept), factor),
    suspectSeconds,
    meanIncludesSuspectSeconds: false,
  }
}

/** A last block shorter than the others still counts as one block of its own length's mean. */
function blockMeans(
  counts: readonly number[],
  suspect: ReadonlySet<number>,
  factor: CupFactor,
  seconds: number,
) {
  const means: number[] = []
  for (let start = 0; start < counts.length; start += seconds) {
    const kept = counts.slice(start, start + seconds).filter((_, k) => !suspect.has(start + k))
    if (kept.length > 0) means.push(windFromHertz(mean(kept), factor))
  }
  return means
}

function findGust(counts: readonly number[], suspect: ReadonlySet<number>, factor: CupFactor) {
  const kept = counts.map((count, second) => ({ count, second })).filter((each) => !suspect.has(each.second))
  if (kept.length < GUST_SECONDS) return null
  let most = -1
  let endsAtSecond = 0
  let running = 0
  for (const [index, { count, second }] of kept.entries()) {
    running += count - (kept[index - GUST_SECONDS]?.count ?? 0)
    if (index >= GUST_SECONDS - 1 && running > most) {
      most = running
      endsAtSecond = second
    }
  }
  return { metresPerSecond: windFromHertz(most / GUST_SECONDS, factor), endsAtSecond }
}

/** Means of each whole run of `length` blocks; none when the blocks do not divide the time. */
function meansOver(blocks: readonly number[], length: number): number[] {
  if (!Number.isInteger(length)) return []
  const means: number[] = []
  for (let start = 0; start + length <= blocks.length; start += length) {
    means.push(mean(blocks.slice(start, start + length)))
  }
  return means
}

/**
 * Mean, highest sample and 3-sample gust of speeds given once a second.
 * @param speeds  m/s, 0 or more, at least one
 * @see WMO-No. 8 Part I ch. 5
 */
export function summariseSpeeds(speeds: readonly number[]):
  | {
      meanMetresPerSecond: number
      highestMetresPerSecond: number
      gustMetresPerSecond: number | null
      gustEndsAtSecond: number | null
    }
  | Refusal {
  if (speeds.length === 0) return refuse('E_POINTS_FEW', 'No speed was given.')
  const bad = speeds.find((speed) => !Number.isFinite(speed) || speed < 0)
  if (bad !== undefined) return refuse('E_SETTING', `A wind of ${bad} m/s cannot be; speed is 0 or more.`)
  const gusts = speeds.slice(GUST_SECONDS - 1).map((_, k) => mean(speeds.slice(k, k + GUST_SECONDS)))
  const gust = gusts.length === 0 ? null : Math.max(...gusts)
  return {
    meanMetresPerSecond: mean(speeds),
    highestMetresPerSecond: Math.max(...speeds),
    gustMetresPerSecond: gust,
    gustEndsAtSecond: gust === null ? null : gusts.indexOf(gust) + GUST_SECONDS - 1,
  }
}

function mean(numbers: readonly number[]): number {
  return numbers.reduce((sum, each) => sum + each, 0) / numbers.length
}
