import { isDeepStrictEqual } from 'node:util'
import { rfc3339 } from '../../clock.ts'
import type { KeepPlan } from '../../contract/plan-api.ts'
import type { Quadrat, SurveyFile } from '../../contract/survey.ts'
import { countOf } from './plan-faults.ts'

/** Why a quadrat is lifted that was left out of a plan. */
const STRANDED = 'no longer in the plan'

/** Planned parts of a survey that may be left out altogether. */
const PARTS_THAT_MAY_BE_EMPTY = ['plots', 'plan', 'walk', 'groups', 'wanted'] as const

/**
 * Puts a plan in the place of the one before; boards, probes, placements and all that was measured stay. A quadrat that is
 * no longer planned is removed, but one that something was placed or measured at is lifted instead, with the reason.
 * @param measured  labels of quadrats that spot readings were taken at
 * @returns the new survey; the old one is untouched
 */
export function keepPlan(
  survey: SurveyFile,
  plan: KeepPlan,
  measured: readonly string[],
  atMs: number,
): SurveyFile {
  const planned = new Set(plan.quadrats.map(({ label }) => label))
  const used = quadratsInUse(survey, measured)
  const stranded = survey.quadrats
    .filter(({ label }) => !planned.has(label) && used.has(label))
    .map((quadrat) => ({
      ...quadrat,
      lifted: quadrat.lifted ?? { at: rfc3339(atMs), reason: STRANDED },
    }))
  const { from: _from, to: _to, ...others } = survey
  const { from, to, ...planParts } = plan
  const after: SurveyFile = {
    ...others,
    ...planParts,
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
    quadrats: [...plan.quadrats, ...stranded],
  }
  for (const part of PARTS_THAT_MAY_BE_EMPTY) {
    if (plan[part] === undefined || plan[part].length === 0) delete after[part]
  }
  return after
}

/** Labels that placements, traps or spot readings name: they must stay. */
export function quadratsInUse(survey: SurveyFile, measured: readonly string[]): Set<string> {
  return new Set([
    ...measured,
    ...survey.placements.flatMap(({ quadrat }) => quadrat ?? []),
    ...(survey.traps ?? []).map(({ quadrat }) => quadrat),
  ])
}

/** What is different afterwards, in plain words; empty when nothing is. */
export function planChanges(before: SurveyFile, after: SurveyFile): string[] {
  const had = new Map(before.quadrats.map((quadrat) => [quadrat.label, quadrat]))
  const has = new Map(after.quadrats.map((quadrat) => [quadrat.label, quadrat]))
  const both = after.quadrats.flatMap((quadrat) => {
    const was = had.get(quadrat.label)
    return was ? [{ was, quadrat }] : []
  })
  const stranded = both.filter(({ quadrat }) => quadrat.lifted?.reason === STRANDED)
  const list = (quadrats: readonly { label: string }[], what: string) =>
    quadrats.length === 0 ? [] : [`${countOf(quadrats.length, 'quadrat')} ${what}: ${labelsText(quadrats)}.`]
  const now = both.map(({ quadrat }) => quadrat)
  const changed = (is: (was: Quadrat, now: Quadrat) => boolean) =>
    both.filter(({ was, quadrat }) => is(was, quadrat)).map(({ quadrat }) => quadrat)
  return [
    ...list(
      after.quadrats.filter(({ label }) => !had.has(label)),
      'added',
    ),
    ...list(
      before.quadrats.filter(({ label }) => !has.has(label)),
      'removed',
    ),
    ...list(
      changed((was, is) => placeKey(was) !== placeKey(is)),
      'at another place; what was measured there goes along',
    ),
    ...list(
      changed((was, is) => was.sideMetres !== is.sideMetres || was.gridDivisions !== is.gridDivisions),
      'of another size or grid',
    ),
    ...list(
      stranded.filter(({ was }) => !was.lifted).map(({ quadrat }) => quadrat),
      'lifted instead of removed, because something was placed or measured there',
    ),
    ...list(
      now.filter(({ label, lifted }) => lifted && !had.get(label)?.lifted && lifted.reason !== STRANDED),
      'lifted',
    ),
    ...list(
      now.filter(({ label, lifted }) => !lifted && had.get(label)?.lifted),
      'put back',
    ),
    ...otherChanges(before, after),
  ]
}

function otherChanges(before: SurveyFile, after: SurveyFile): string[] {
  const parts = [
    ['title', 'the title'],
    ['site', 'the site'],
    ['from', 'the first day'],
    ['to', 'the last day'],
    ['transects', 'the tapes'],
    ['plots', 'the plots'],
    ['plan', 'the rules'],
    ['walk', 'the order of visiting'],
    ['groups', 'the groups'],
    ['wanted', 'what is to be measured'],
  ] as const
  const names = parts.flatMap(([part, name]) => (isDeepStrictEqual(before[part], after[part]) ? [] : [name]))
  return names.length === 0 ? [] : [`Changed: ${names.join(', ')}.`]
}

function placeKey({ transect, distanceMetres, offsetMetres, plot, xMetres, yMetres }: Quadrat): string {
  return JSON.stringify([transect, distanceMetres, offsetMetres ?? 0, plot, xMetres, yMetres])
}

const NAMED_AT_MOST = 12

function labelsText(quadrats: readonly { label: string }[]): string {
  const named = quadrats.slice(0, NAMED_AT_MOST).map(({ label }) => label)
  const more = quadrats.length - named.length
  return more > 0 ? `${named.join(', ')} and ${more} more` : named.join(', ')
}
