import { isInPlot, isOnTransect, metresBetween } from '../../contract/quadrat-place.ts'
import type { Quadrat } from '../../contract/survey.ts'
import { midRanks } from '../../study/statistics/mid-ranks.ts'
import { rankCorrelation } from '../../study/statistics/rank-correlation.ts'

/** How much an order of visiting follows a gradient in one area. */
export interface FollowsGradient {
  /** transect or plot */
  area: string
  along: 'distance' | 'x' | 'y'
  /** rank correlation of place and turn, −1 to 1; null with fewer than 3 quadrats or all at one place */
  r: number | null
}

/** Above this the order and the place are the same thing: common practice, no source. */
export const SAME_THING_ABOVE = 0.6
/** A proposed order is at or below this: common practice, no source. */
export const BROKEN_AT_MOST = 0.3

/**
 * Spearman’s rank correlation of the turn and the place; quadrats at the same place share the mean of their ranks.
 * A working figure for comparing orders; the p of a study is in study/statistics/spearman.ts.
 * @param places  metres along the gradient, in the order of visiting
 * @returns −1 to 1; null when there are fewer than 3 places or only one
 * @see Spearman 1904, Am. J. Psychol. 15, 72–101; Pearson’s r of the ranks, which is right with ties
 */
export function followsOrder(places: readonly number[]): number | null {
  if (places.length < 3) return null
  return rankCorrelation(
    places.map((_, turn) => turn + 1),
    midRanks(places),
  )
}

/** For each transect along its length, for each plot along both sides, in the order given. */
export function measureWalk(order: readonly Quadrat[]): FollowsGradient[] {
  const areas = new Map<string, Quadrat[]>()
  for (const quadrat of order) {
    const key = areaKey(quadrat)
    areas.set(key, [...(areas.get(key) ?? []), quadrat])
  }
  return [...areas.values()].flatMap((quadrats): FollowsGradient[] => {
    const tape = quadrats.filter(isOnTransect)
    if (tape[0])
      return [
        {
          area: tape[0].transect,
          along: 'distance',
          r: followsOrder(tape.map(({ distanceMetres }) => distanceMetres)),
        },
      ]
    const plot = quadrats.filter(isInPlot)
    const area = plot[0]!.plot
    return [
      { area, along: 'x', r: followsOrder(plot.map(({ xMetres }) => xMetres)) },
      { area, along: 'y', r: followsOrder(plot.map(({ yMetres }) => yMetres)) },
    ]
  })
}

/** The largest |r| of an order, 0 when there is none. */
export function strongest(measures: readonly FollowsGradient[]): number {
  return Math.max(0, ...measures.map(({ r }) => Math.abs(r ?? 0)))
}

/** Straight from quadrat to quadrat, metres; the way from one tape or plot to the next is not known and not counted. */
export function walkingMetres(order: readonly Quadrat[]): number {
  return order.reduce((sum, quadrat, turn) => {
    const before = order[turn - 1]
    return sum + (before ? (metresBetween(before, quadrat) ?? 0) : 0)
  }, 0)
}

/** Quadrats of one transect or plot have the same key; a transect and a plot of one name do not. */
export function areaKey(quadrat: Quadrat): string {
  return quadrat.transect === undefined ? `plot ${quadrat.plot}` : `transect ${quadrat.transect}`
}
