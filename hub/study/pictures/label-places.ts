import { SMALL_PX } from './look.ts'
import { textWidth } from './text-width.ts'

interface Box {
  left: number
  right: number
  top: number
  bottom: number
}

/** How bad it is to cover it. */
interface Taken extends Box {
  weight: number
}

export interface LabelPlace {
  x: number
  y: number
  anchor: 'start' | 'middle' | 'end'
}

const HEIGHT_PX = SMALL_PX
/** two labels on each other can neither be read */
const LABEL_WEIGHT = 20

/**
 * Where the labels of points go so that they cover little of each other and of the points: right, left, above or below.
 * @param frame  no label leaves it
 * @param obstacles  further places that are better left free, such as points of a line
 */
export function placeLabels(
  points: readonly { x: number; y: number; text: string }[],
  frame: Box,
  obstacles: readonly { x: number; y: number }[] = [],
): LabelPlace[] {
  const taken: Taken[] = [
    ...points.map((point) => ({ ...around(point), weight: 2 })),
    ...obstacles.map((place) => ({ ...around(place), weight: 1 })),
  ]
  return points.map(({ x, y, text }, index) => {
    const width = textWidth(text, SMALL_PX)
    const choices: { place: LabelPlace; box: Box }[] = [
      { place: { x: x + 7, y: y + 4, anchor: 'start' }, box: boxAt(x + 7, y + 4, width) },
      { place: { x: x - 7, y: y + 4, anchor: 'end' }, box: boxAt(x - 7 - width, y + 4, width) },
      { place: { x, y: y - 7, anchor: 'middle' }, box: boxAt(x - width / 2, y - 7, width) },
      { place: { x, y: y + 16, anchor: 'middle' }, box: boxAt(x - width / 2, y + 16, width) },
    ]
    const others = taken.filter((_, place) => place !== index)
    const cost = ({ box }: { box: Box }) =>
      others.reduce((sum, other) => sum + (overlaps(box, other) ? other.weight : 0), 0) +
      (isWithin(box, frame) ? 0 : 100)
    const best = choices.reduce((one, other) => (cost(other) < cost(one) ? other : one))
    taken.push({ ...best.box, weight: LABEL_WEIGHT })
    return best.place
  })
}

function around({ x, y }: { x: number; y: number }): Box {
  return { left: x - 4, right: x + 4, top: y - 4, bottom: y + 4 }
}

function boxAt(left: number, baseline: number, width: number): Box {
  return { left, right: left + width, top: baseline - HEIGHT_PX, bottom: baseline + 2 }
}

function overlaps(one: Box, other: Box): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom
}

function isWithin(box: Box, frame: Box): boolean {
  return (
    box.left >= frame.left && box.right <= frame.right && box.top >= frame.top && box.bottom <= frame.bottom
  )
}
