import type { StandingCount } from '../../contract/field.ts'
import type { TimeSpan } from '../../contract/reading.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import { longestStepMs } from '../../quality/unbroken.ts'
import type { Timelines } from '../timeline.ts'

/** A probe stood at a quadrat and was to log. */
export interface StandingSpan {
  probe: string
  board: string
  channel: string
  quadrat: string
  fromMs: number
  /** exclusive; at most now */
  toMs: number
  /** it stands there still */
  isThere: boolean
}

/** Where and when the probes of a survey stood, up to now. A carried meter stands nowhere; a reference is for all. */
export function standingSpans(survey: SurveyFile, timelines: Timelines, nowMs: number): StandingSpan[] {
  return survey.probes.flatMap((probe) => {
    if (probe.isCarried || probe.isTyped || probe.reference) return []
    const spans: StandingSpan[] = []
    for (const segment of timelines.of(probe.board, probe.channel)) {
      const isHere = segment.survey.id === survey.id && segment.probe.id === probe.id
      if (!isHere || segment.quadrat === null || segment.spot !== null || segment.fromMs >= nowMs) continue
      const quadrat = segment.quadrat.label
      const toMs = Math.min(segment.toMs, nowMs)
      const isThere = segment.toMs > nowMs
      const last = spans.at(-1)
      // a new calibration, or a decision by hand, cuts a segment but moves nothing
      if (last?.quadrat === quadrat && last.toMs === segment.fromMs) Object.assign(last, { toMs, isThere })
      else
        spans.push({
          probe: probe.id,
          board: probe.board,
          channel: probe.channel,
          quadrat,
          fromMs: segment.fromMs,
          toMs,
          isThere,
        })
    }
    return spans
  })
}

/** What the store has of a span: how many readings, the first and the last, and every longer pause between two. */
export interface StoredSpan {
  received: number
  firstMs: number | null
  lastMs: number | null
  pauses: readonly TimeSpan[]
}

/** The longest pause between two readings that is no gap, ms; the same as where a chart breaks its line. */
export function longestPauseMs(intervalSeconds: number | undefined): number {
  return longestStepMs(intervalSeconds === undefined ? null : intervalSeconds * 1000)
}

/**
 * Received of expected, with the gaps: also the one before the first reading and the one after the last.
 * @param intervalSeconds  of the board; undefined: how many were to come cannot be known
 */
export function countStanding(
  span: StandingSpan,
  stored: StoredSpan,
  intervalSeconds: number | undefined,
  isBoardSilent: boolean,
): StandingCount {
  const longestMs = longestPauseMs(intervalSeconds)
  const { fromMs, toMs } = span
  const edges: TimeSpan[] =
    stored.firstMs === null || stored.lastMs === null
      ? [{ fromMs, toMs }]
      : [{ fromMs, toMs: stored.firstMs }, ...stored.pauses, { fromMs: stored.lastMs, toMs }]
  const gaps = edges.filter((gap) => gap.toMs - gap.fromMs > longestMs)
  const expected =
    intervalSeconds === undefined ? null : Math.floor((toMs - fromMs) / (intervalSeconds * 1000))
  return {
    probe: span.probe,
    board: span.board,
    isThere: span.isThere,
    isLogging: span.isThere && !isBoardSilent,
    received: stored.received,
    expected,
    completeness: expected === null || expected === 0 ? null : Math.min(1, stored.received / expected),
    gaps,
  }
}
