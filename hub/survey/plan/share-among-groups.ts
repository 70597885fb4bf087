import { isInPlot, isOnTransect } from '../../contract/quadrat-place.ts'
import type { Quadrat } from '../../contract/survey.ts'
import { type JudgedWalk, judgeWalk, proposeWalk } from './walk.ts'
import { areaKey } from './walk-measure.ts'

export interface GroupShare {
  group: string
  /** its quadrats in a good order of visiting */
  walk: JudgedWalk
}

/**
 * Shares quadrats among groups so that no group is confined to one end: dealt out along the gradient to and fro, as
 * cards are, area by area. Each group gets the same number, give or take one.
 * @param groups  labels, at least one
 */
export function shareAmongGroups(quadrats: readonly Quadrat[], groups: readonly string[]): GroupShare[] {
  const hands = groups.map((): Quadrat[] => [])
  const inOrder = quadrats.filter(({ lifted }) => lifted === undefined).sort(byPlace)
  for (const [turn, quadrat] of inOrder.entries()) {
    const place = turn % groups.length
    const isBack = Math.floor(turn / groups.length) % 2 === 1
    hands[isBack ? groups.length - 1 - place : place]?.push(quadrat)
  }
  return groups.map((group, index) => {
    const hand = hands[index]!
    return { group, walk: proposeWalk(hand) ?? judgeWalk('along the tape', hand) }
  })
}

function byPlace(one: Quadrat, other: Quadrat): number {
  const area = areaKey(one).localeCompare(areaKey(other), 'en')
  if (area !== 0) return area
  if (isOnTransect(one) && isOnTransect(other))
    return one.distanceMetres - other.distanceMetres || (one.offsetMetres ?? 0) - (other.offsetMetres ?? 0)
  return isInPlot(one) && isInPlot(other) ? one.xMetres - other.xMetres || one.yMetres - other.yMetres : 0
}
