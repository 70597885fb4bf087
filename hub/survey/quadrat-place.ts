import { isInPlot, isOnTransect, type Quadrat } from '../contract/survey.ts'

/**
 * How far the middles of two quadrats are apart, metres; null when they are on different transects or plots, whose
 * places on the ground are not known to each other.
 */
export function metresBetween(one: Quadrat, other: Quadrat): number | null {
  if (isOnTransect(one) && isOnTransect(other) && one.transect === other.transect)
    return Math.hypot(
      one.distanceMetres - other.distanceMetres,
      (one.offsetMetres ?? 0) - (other.offsetMetres ?? 0),
    )
  if (isInPlot(one) && isInPlot(other) && one.plot === other.plot) {
    const middle = (quadrat: typeof one) => [
      quadrat.xMetres + quadrat.sideMetres / 2,
      quadrat.yMetres + quadrat.sideMetres / 2,
    ]
    const [x1, y1] = middle(one) as [number, number]
    const [x2, y2] = middle(other) as [number, number]
    return Math.hypot(x1 - x2, y1 - y2)
  }
  return null
}
