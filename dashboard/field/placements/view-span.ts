import type { SpotValue } from '../../../hub/contract/spot.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { dayAt, momentOf } from '../../bench/wall-time.ts'
import type { View } from './strip-geometry.ts'

export const viewNames = ['last hour', 'today', 'whole survey'] as const
export type ViewName = (typeof viewNames)[number]

const HOUR_MS = 3_600_000
const LEAST_MS = 10 * 60_000

/** The span a strip shows, up to now; never before anything was placed or held, never shorter than ten minutes. */
export function viewSpan(
  name: ViewName,
  survey: Pick<SurveyFile, 'placements'>,
  spots: readonly SpotValue[],
  nowMs: number,
  zone: string | undefined,
): View {
  const begins = [
    ...survey.placements.map(({ from }) => Date.parse(from)),
    ...spots.flatMap(({ spot }) => spot.replicates.map(({ from }) => Date.parse(from))),
  ]
  const earliestMs = begins.reduce((least, each) => Math.min(least, each), nowMs)
  const midnightMs = momentOf(`${dayAt(nowMs, zone)}T00:00`, zone) ?? nowMs - 24 * HOUR_MS
  const wishedMs = name === 'last hour' ? nowMs - HOUR_MS : name === 'today' ? midnightMs : earliestMs
  return { fromMs: Math.min(Math.max(wishedMs, earliestMs), nowMs - LEAST_MS), toMs: nowMs }
}
