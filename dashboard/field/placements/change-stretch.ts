import type { AmendPlacement, PlaceProbe } from '../../../hub/contract/changes.ts'
import { clockText } from '../../format-time.ts'
import { momentOfSeconds } from '../../quality/by-hand/wall-seconds.ts'
import type { Stretch } from './stretches.ts'

/** What was really so: after a moment, before it, all the time, at other times, or not at all. */
export type StretchAction = 'rest' | 'first' | 'all' | 'times' | 'remove'

export interface StretchForm {
  action: StretchAction
  /** '' is in transit */
  quadrat: string
  /** the moment it was carried, as a clock on the wall shows it, to the second */
  at: string
  from: string
  /** '' is “it is still there” */
  to: string
  reason: string
}

export type StretchChange =
  | { kind: 'amend'; wish: AmendPlacement }
  | { kind: 'place'; placing: PlaceProbe & { reason: string } }

export type StretchRead =
  | { change: StretchChange; said: string }
  | { wrong: Partial<Record<'at' | 'from' | 'to' | 'quadrat' | 'reason', string>> }

/** What can be said about a stretch; one that no placement speaks of can only be filled. */
export function actionsFor({ kind }: Stretch): StretchAction[] {
  return kind === 'none' ? ['rest'] : ['rest', 'first', 'all', 'times', 'remove']
}

/** Reads what was filled in about a stretch. @returns the change for the hub and a sentence, or what is wrong by field */
export function readStretchForm(
  probe: string,
  stretch: Stretch,
  form: StretchForm,
  zone: string | undefined,
): StretchRead {
  const reason = form.reason.trim()
  const quadrat = form.quadrat === '' ? null : form.quadrat
  const wrong: Extract<StretchRead, { wrong: unknown }>['wrong'] = {}
  if (reason.length < 3) wrong.reason = 'say in a few words how that is known'
  const typedMs = momentOfSeconds(form.at, zone)
  // a field shows whole seconds, a placement may begin within one
  const isItsBeginning = typedMs !== null && isSameSecond(typedMs, stretch.fromMs)
  const atMs = isItsBeginning ? stretch.fromMs : typedMs
  const needsMoment = form.action === 'rest' || form.action === 'first'
  if (needsMoment) {
    if (atMs === null) wrong.at = 'a day and a time'
    else if (form.action === 'first' && isItsBeginning) wrong.at = 'later than its beginning'
    else if (atMs < stretch.fromMs || (stretch.toMs !== null && atMs >= stretch.toMs))
      wrong.at = `between ${clockText(stretch.fromMs, zone)} and ${stretch.toMs === null ? 'now' : clockText(stretch.toMs, zone)}`
  }
  const isSame = quadrat === stretch.quadrat && stretch.begins !== null
  if (isSame && form.action !== 'times' && form.action !== 'remove')
    wrong.quadrat = 'it is written there already'
  const times = form.action === 'times' ? readTimes(stretch, form, zone) : null
  if (times && 'wrong' in times) Object.assign(wrong, times.wrong)
  if (Object.keys(wrong).length > 0) return { wrong }
  const where = quadrat === null ? 'in transit' : `at ${quadrat}`
  const amend = (part: Partial<AmendPlacement>): StretchChange => ({
    kind: 'amend',
    wish: { probe, begins: stretch.begins!, reason, ...part },
  })
  const moment = new Date(atMs ?? stretch.fromMs).toISOString()
  const shown = clockText(atMs ?? stretch.fromMs, zone)
  switch (form.action) {
    case 'rest':
      return {
        change:
          stretch.begins === null
            ? { kind: 'place', placing: { probe, quadrat, from: moment, reason } }
            : atMs === stretch.fromMs
              ? amend({ set: { quadrat } })
              : amend({ split: { at: moment, part: 'after', quadrat } }),
        said: `From ${shown} on ${probe} was ${where}.`,
      }
    case 'first':
      return {
        change: amend({ split: { at: moment, part: 'before', quadrat } }),
        said: `Up to ${shown} ${probe} was ${where}.`,
      }
    case 'all':
      return { change: amend({ set: { quadrat } }), said: `All that time ${probe} was ${where}.` }
    case 'times':
      return {
        change: amend({ set: times && 'set' in times ? times.set : {} }),
        said: `The times of ${probe} were changed.`,
      }
    case 'remove':
      return {
        change: amend({ remove: true }),
        said: `${probe} was not there; nothing is said about that time now.`,
      }
  }
}

function readTimes(stretch: Stretch, form: StretchForm, zone: string | undefined) {
  const wrong: { from?: string; to?: string } = {}
  const fromMs = momentOfSeconds(form.from, zone)
  const toMs = form.to === '' ? null : momentOfSeconds(form.to, zone)
  if (fromMs === null) wrong.from = 'a day and a time'
  if (form.to !== '' && toMs === null) wrong.to = 'a day and a time, or nothing'
  if (fromMs !== null && toMs !== null && toMs <= fromMs) wrong.to = 'after its beginning'
  if (fromMs === null || Object.keys(wrong).length > 0) return { wrong }
  // a field shows whole seconds: what nobody touched keeps its milliseconds
  const isMoved = (ms: number | null, before: number | null) =>
    ms === null || before === null ? ms !== before : !isSameSecond(ms, before)
  const set = {
    ...(isMoved(fromMs, stretch.fromMs) ? { from: new Date(fromMs).toISOString() } : {}),
    ...(isMoved(toMs, stretch.toMs) ? { to: toMs === null ? null : new Date(toMs).toISOString() } : {}),
  }
  return Object.keys(set).length === 0 ? { wrong: { from: 'nothing is changed yet' } } : { set }
}

function isSameSecond(oneMs: number, otherMs: number): boolean {
  return Math.floor(oneMs / 1000) === Math.floor(otherMs / 1000)
}
