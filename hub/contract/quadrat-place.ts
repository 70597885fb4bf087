import type { Quadrat } from './survey.ts'

export type TransectQuadrat = Quadrat & { transect: string; distanceMetres: number }
export type PlotQuadrat = Quadrat & { plot: string; xMetres: number; yMetres: number }

export function isOnTransect(quadrat: Quadrat): quadrat is TransectQuadrat {
  return quadrat.transect !== undefined
}

export function isInPlot(quadrat: Quadrat): quadrat is PlotQuadrat {
  return quadrat.plot !== undefined
}

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
    const [here, there] = [middleOf(one), middleOf(other)]
    return Math.hypot(here.x - there.x, here.y - there.y)
  }
  return null
}

function middleOf({ xMetres, yMetres, sideMetres }: PlotQuadrat): { x: number; y: number } {
  return { x: xMetres + sideMetres / 2, y: yMetres + sideMetres / 2 }
}
