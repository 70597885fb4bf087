import { type Signal, signal } from '@preact/signals'
import type { Captured } from '../../../calibration/index.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { hub } from '../../notebook.ts'
import type { Entry } from '../hold/entries.ts'
import { recall, remember } from '../remembered.ts'

/** A point kept at the bench, not yet part of any calibration. */
export interface KeptPoint extends Captured {
  key: number
  atMs: number
  /** the procedure it was kept for */
  procedure: string
}

/** The calibration a probe is in the middle of. */
export interface Draft {
  procedure: string | null
  settings: Readonly<Record<string, Entry>>
  entry: Entry
  points: readonly KeptPoint[]
}

export const EMPTY_DRAFT: Draft = { procedure: null, settings: {}, entry: {}, points: [] }

/** Samples may take a night in the oven; what is older than that was left behind. */
const KEPT_MS = 4 * 86_400_000

const drafts = new Map<string, Signal<Draft>>()

/** The draft of a probe. It outlives a reload of the page; one of another rehearsal is not taken up. */
export function draftOf(survey: string, probe: string): Signal<Draft> {
  const key = `${survey}/${probe}`
  let draft = drafts.get(key)
  if (!draft) {
    const where = hub.peek()?.isRehearsal ? 'tab' : 'device'
    draft = signal(fitToTime(recall<Draft>(`draft ${key}`, EMPTY_DRAFT, where), hubNowMs()))
    draft.subscribe((now) => remember(`draft ${key}`, now, where))
    drafts.set(key, draft)
  }
  return draft
}

/** A stored draft, or an empty one when its points lie ahead of the hub’s clock or were left behind. */
export function fitToTime(draft: Draft, nowMs: number): Draft {
  if (!Array.isArray(draft.points)) return EMPTY_DRAFT
  const isFit = draft.points.every(({ atMs }) => atMs <= nowMs + 60_000 && nowMs - atMs < KEPT_MS)
  return isFit ? draft : EMPTY_DRAFT
}

export function nextKey(points: readonly KeptPoint[]): number {
  return Math.max(0, ...points.map(({ key }) => key)) + 1
}
