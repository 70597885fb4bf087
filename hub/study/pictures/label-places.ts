import { SMALL_PX } from './look.ts'
import { textWidth } from './text-width.ts'

interface Box {
  left: number
  right: number
  top: number
  bottom: number
}

export interface LabelPlace {
  x: number
  y: number
  anchor: 'start' | 'middle' | 'end'
}

const HEIGHT_PX = SMALL_PX

/**
 * Where the labels of points go so that they cover little of each other and of the points: right, left, above or below.
 * @param frame  no label leaves it
 */
export function placeLabels(
  points: readonly { x: number; y: number; text: string }[],
  frame: Box,
): LabelPlace[] {
  const taken: Box[] = points.map(({ x, y }) => ({ left: x - 4, right: x + 4, top: y - 4, bottom: y + 4 }))
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
      others.filter((other) => overlaps(box, other)).length + (isWithin(box, frame) ? 0 : 100)
    const best = choices.reduce((one, other) => (cost(other) < cost(one) ? other : one))
    taken.push(best.box)
    return best.place
  })
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
