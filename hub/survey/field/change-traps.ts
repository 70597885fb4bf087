import { rfc3339 } from '../../clock.ts'
import type { CheckTrap, SetTrap } from '../../contract/changes.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import type { Trap } from '../../contract/trap.ts'
import { HubError } from '../../errors.ts'

/** The clock of a phone may be ahead of the hub’s by this much without a word. */
const AHEAD_MS = 2 * 60_000

/** @returns the survey with the trap, and its id: the one given, or one more than the highest so far */
export function setTrap(survey: SurveyFile, wish: SetTrap): { survey: SurveyFile; id: string } {
  const before = survey.traps ?? []
  const highest = Math.max(0, ...before.map(({ id }) => Number(/^trap-(\d+)$/.exec(id)?.[1] ?? 0)))
  const id = wish.id ?? `trap-${highest + 1}`
  return { survey: { ...survey, traps: [...before, { ...wish, id, checks: [] }] }, id }
}

/** A trap was looked at; without a time, now. @throws HubError `E_BODY` for a time to come, or a closed trap */
export function checkTrap(survey: SurveyFile, id: string, check: CheckTrap, nowMs: number): SurveyFile {
  const trap = trapNamed(survey, id)
  if (trap.checks.at(-1)?.isClosed)
    throw new HubError('E_BODY', `${trap.method} "${id}" at ${trap.quadrat} was taken up already.`)
  const atMs = check.at === undefined ? nowMs : Date.parse(check.at)
  if (atMs > nowMs + AHEAD_MS)
    throw new HubError('E_BODY', `A trap cannot have been looked at ${check.at}: that is still to come.`)
  const made = { ...check, at: rfc3339(Math.min(atMs, nowMs)), isClosed: check.isClosed ?? false }
  return withTrap(survey, { ...trap, checks: [...trap.checks, made] })
}

/** Takes the last check of a trap back, or the trap itself when it was never checked. @returns what that was, in words */
export function undoTrap(survey: SurveyFile, id: string): { survey: SurveyFile; undone: string } {
  const trap = trapNamed(survey, id)
  const last = trap.checks.at(-1)
  if (!last) {
    const traps = (survey.traps ?? []).filter((each) => each.id !== id)
    return { survey: { ...survey, traps }, undone: `${trap.method} set at ${trap.quadrat}` }
  }
  const what = last.isClosed ? 'taken up' : 'looked at and set again'
  return {
    survey: withTrap(survey, { ...trap, checks: trap.checks.slice(0, -1) }),
    undone: `${trap.method} at ${trap.quadrat} ${what}`,
  }
}

function trapNamed(survey: SurveyFile, id: string): Trap {
  const trap = survey.traps?.find((each) => each.id === id)
  if (!trap) throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no trap "${id}".`)
  return trap
}

function withTrap(survey: SurveyFile, trap: Trap): SurveyFile {
  return { ...survey, traps: (survey.traps ?? []).map((each) => (each.id === trap.id ? trap : each)) }
}
