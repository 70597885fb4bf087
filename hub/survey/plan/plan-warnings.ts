import { isOnTransect } from '../../contract/quadrat-place.ts'
import type { Quadrat, SurveyFile } from '../../contract/survey.ts'

import { confusableLabels } from './confusable-labels.ts'
import { findOverlap } from './find-overlap.ts'
import { countOf } from './plan-faults.ts'
import { areaKey } from './walk-measure.ts'

/** Common practice in teaching field ecology, no source. */
const QUADRATS_PER_AREA = 10
/** Pairs for a rank correlation: aim, least worth running, and the fewest that can be significant at all. */
const PAIRS_WISHED = 10
const PAIRS_LEAST = 8
const PAIRS_PERFECT = 5

/**
 * What is weak about a plan, in plain words; it can be kept all the same.
 * @param quadrats  those that are visited: without lifted ones
 */
export function planWarnings(quadrats: readonly Quadrat[]): string[] {
  if (quadrats.length === 0) return []
  return [
    ...fewWarnings(quadrats),
    ...stationWarnings(quadrats),
    ...confusableLabels(quadrats.map(({ label }) => label)),
    ...overlapWarnings(quadrats),
  ]
}

function fewWarnings(quadrats: readonly Quadrat[]): string[] {
  const warnings: string[] = []
  const areas = new Map<string, number>()
  for (const quadrat of quadrats) areas.set(areaKey(quadrat), (areas.get(areaKey(quadrat)) ?? 0) + 1)
  for (const [area, count] of areas)
    if (area.startsWith('plot ') && count < QUADRATS_PER_AREA)
      warnings.push(
        `${countOf(count, 'quadrat')} in ${area}: to compare areas, plan ${QUADRATS_PER_AREA} or more in each.`,
      )
  const pairs = quadrats.length
  if (pairs < PAIRS_PERFECT)
    warnings.push(
      `${countOf(pairs, 'quadrat')}: a rank correlation needs ${PAIRS_WISHED} pairs or more; with fewer than ${PAIRS_PERFECT} no result could be significant.`,
    )
  else if (pairs < PAIRS_LEAST)
    warnings.push(
      `${countOf(pairs, 'quadrat')}: for a rank correlation ${PAIRS_LEAST} pairs are the least worth running, ${PAIRS_WISHED} are better; with ${PAIRS_PERFECT} only a perfect order is significant.`,
    )
  else if (pairs < PAIRS_WISHED)
    warnings.push(
      `${countOf(pairs, 'quadrat')}: enough to run a rank correlation, but plan ${PAIRS_WISHED} or more if there is time.`,
    )
  return warnings
}

function stationWarnings(quadrats: readonly Quadrat[]): string[] {
  const tape = quadrats.filter(isOnTransect)
  if (tape.length === 0) return []
  const stations = new Set(tape.map(({ transect, distanceMetres }) => `${transect} ${distanceMetres}`))
  return stations.size === tape.length
    ? [
        'One quadrat at each station is weak: nobody can tell the place from the luck of one frame. Three to five side by side (a belt) are better, where there is time.',
      ]
    : []
}

function overlapWarnings(quadrats: readonly Quadrat[]): string[] {
  const overlap = findOverlap(quadrats)
  return overlap === null
    ? []
    : [`${overlap[0].label} and ${overlap[1].label} overlap: the same plants would be counted twice.`]
}

/** Zones that lie past the end of their tape, or end before they begin. */
export function zoneFaults(transects: SurveyFile['transects']): { path: string; message: string }[] {
  return transects.flatMap(({ zones, lengthMetres }, index) =>
    zones.flatMap(({ fromMetres, toMetres }, place) => {
      const path = `transects[${index}].zones[${place}]`
      if (toMetres <= fromMetres)
        return [{ path, message: `ends at ${toMetres} m, not after ${fromMetres} m where it begins` }]
      return toMetres > lengthMetres
        ? [{ path, message: `${toMetres} m is past the end of the tape (${lengthMetres} m)` }]
        : []
    }),
  )
}
