import { isInPlot } from '../../contract/quadrat-place.ts'
import type { Quadrat } from '../../contract/survey.ts'
import { areaKey } from './walk-measure.ts'

interface Square {
  quadrat: Quadrat
  left: number
  right: number
  bottom: number
  top: number
}

/** The first two quadrats of one transect or plot that cover common ground; touching edges are none. */
export function findOverlap(quadrats: readonly Quadrat[]): [Quadrat, Quadrat] | null {
  const areas = new Map<string, Square[]>()
  for (const quadrat of quadrats) {
    const key = areaKey(quadrat)
    areas.set(key, [...(areas.get(key) ?? []), squareOf(quadrat)])
  }
  for (const squares of areas.values()) {
    // from left to right, only those that have not ended yet can overlap
    squares.sort((one, other) => one.left - other.left)
    let open: Square[] = []
    for (const square of squares) {
      open = open.filter(({ right }) => right > square.left + TOUCH_METRES)
      const other = open.find(
        ({ bottom, top }) => bottom < square.top - TOUCH_METRES && square.bottom < top - TOUCH_METRES,
      )
      if (other) return [other.quadrat, square.quadrat]
      open.push(square)
    }
  }
  return null
}

const TOUCH_METRES = 1e-3

/** On a tape the place is that of the middle of the frame, in a plot that of its lower-left corner. */
function squareOf(quadrat: Quadrat): Square {
  const half = quadrat.sideMetres / 2
  const [x, y] = isInPlot(quadrat)
    ? [quadrat.xMetres + half, quadrat.yMetres + half]
    : [quadrat.distanceMetres ?? 0, quadrat.offsetMetres ?? 0]
  return { quadrat, left: x - half, right: x + half, bottom: y - half, top: y + half }
}
