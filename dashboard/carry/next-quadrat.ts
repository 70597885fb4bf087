import { metresBetween } from '../../hub/contract/quadrat-place.ts'

import type { Quadrat, SurveyFile } from '../../hub/contract/survey.ts'

/**
 * Where to go next: the next one in walking order that is not done, or without an order the nearest one.
 * @param own  labels the group is to visit; empty: all
 * @param here  the quadrat just left; null at the start
 * @returns null when all are done
 */
export function nextQuadrat(
  survey: Pick<SurveyFile, 'quadrats' | 'walk'>,
  own: readonly string[],
  here: string | null,
  isDone: (label: string) => boolean,
): Quadrat | null {
  const open = survey.quadrats.filter(
    ({ label, lifted }) =>
      !lifted && label !== here && (own.length === 0 || own.includes(label)) && !isDone(label),
  )
  return byWalk(open, survey.walk ?? [], here) ?? byDistance(open, survey.quadrats, here)
}

/** The next in walking order after here, round again from its start. */
function byWalk(open: readonly Quadrat[], walk: readonly string[], here: string | null): Quadrat | null {
  const start = here === null ? -1 : walk.indexOf(here)
  const inOrder = [...walk.slice(start + 1), ...walk.slice(0, start + 1)]
  for (const label of inOrder) {
    const found = open.find((quadrat) => quadrat.label === label)
    if (found) return found
  }
  return null
}

/**
 * The nearest; of two as near, the one further on in the survey. Those on another transect or plot, whose distance is not
 * known, come last.
 */
function byDistance(
  open: readonly Quadrat[],
  quadrats: readonly Quadrat[],
  here: string | null,
): Quadrat | null {
  const start = quadrats.findIndex(({ label }) => label === here)
  const from = quadrats[start]
  const onwards = [...quadrats.slice(start + 1), ...quadrats.slice(0, start + 1)]
  const metres = (quadrat: Quadrat) =>
    from ? (metresBetween(from, quadrat) ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY
  return onwards
    .filter((quadrat) => open.includes(quadrat))
    .reduce<Quadrat | null>(
      (nearest, quadrat) => (nearest === null || metres(quadrat) < metres(nearest) ? quadrat : nearest),
      null,
    )
}
