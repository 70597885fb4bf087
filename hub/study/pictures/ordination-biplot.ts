import { levelAxis, roomForTicks, uprightAxis } from './axes.ts'
import { placeLabels } from './label-places.ts'
import { scaleFor } from './linear-scale.ts'
import { HAIR, INK, type MarkShape, mark, PENCIL, SMALL_PX } from './look.ts'
import { drawMarkKey } from './mark-key.ts'
import { drawNotes } from './notes.ts'
import { line, svgFile, tag, through, words } from './svg-text.ts'
import { fitText } from './text-width.ts'

export interface BiplotPicture {
  /** share of the variation on each axis, 0–1 */
  shares: readonly [number, number]
  quadrats: readonly { label: string; x: number; y: number; shape: MarkShape }[]
  /** loadings of the factors on the two axes */
  arrows: readonly { factor: string; x: number; y: number }[]
  key: readonly { shape: MarkShape; text: string }[]
}

/** Longest arrow as a share of the farthest quadrat. */
const ARROW_SHARE = 0.9

/** Quadrats and factors in one picture: near points are alike in all factors, an arrow points to where its factor is high. */
export function ordinationBiplot(picture: BiplotPicture, widthPx: number): string {
  const farthest = Math.max(...picture.quadrats.map(({ x, y }) => Math.hypot(x, y)), 1e-9)
  const longest = Math.max(...picture.arrows.map(({ x, y }) => Math.hypot(x, y)), 1e-9)
  const by = (ARROW_SHARE * farthest) / longest
  const heads = picture.arrows.map(({ factor, x, y }) => ({ factor, x: x * by, y: y * by }))
  const all = [...picture.quadrats, ...heads, { x: 0, y: 0 }]
  const height = Math.round(Math.min(460, Math.max(260, widthPx * 0.6)))
  const [top, bottom] = [12, 12 + height]
  const y = scaleFor(
    all.map((each) => each.y),
    bottom,
    top,
    7,
  )
  const left = Math.max(40, roomForTicks(y) + 4)
  const right = widthPx - 24
  const x = scaleFor(
    all.map((each) => each.x),
    left,
    right,
    Math.max(3, Math.floor((right - left) / 70)),
  )
  const frame = { left, right: widthPx, top: 0, bottom: bottom + 4 }
  const points = picture.quadrats.map((each) => ({ x: x.at(each.x), y: y.at(each.y), text: each.label }))
  const tips = heads.map((each) => ({
    x: x.at(each.x),
    y: y.at(each.y),
    text: fitText(each.factor, (right - left) / 2, SMALL_PX),
  }))
  const zero = { x: x.at(0), y: y.at(0) }
  const places = placeLabels(
    [...tips, ...points],
    frame,
    tips.flatMap((tip) => alongShaft(zero, tip)),
  )
  const labels = [...tips, ...points].map(({ text }, index) => {
    const { x: at, y: base, anchor } = places[index]!
    const weight = index < tips.length ? 'bold' : undefined
    return words(at, base, text, { 'text-anchor': anchor, 'font-size': SMALL_PX, 'font-weight': weight })
  })
  const percent = (share: number) => `${Math.round(100 * share)} % of the variation`
  const key = drawMarkKey(picture.key, left, bottom + 40, right - left)
  const notes = drawNotes(
    [
      `Upright: axis 2, ${percent(picture.shares[1])}. Quadrats near each other are alike in all factors together; an arrow points to where its factor is high, and arrows side by side go together. Numbers on the axes have no unit. It shows order, it tests nothing.`,
    ],
    left,
    bottom + 42 + key.heightPx,
    right - left,
  )
  return svgFile(
    {
      widthPx,
      heightPx: bottom + 48 + key.heightPx + notes.heightPx,
      title: 'All factors together: principal components of the standardised factors',
      description: `Axis 1 holds ${percent(picture.shares[0])}, axis 2 ${percent(picture.shares[1])}. Arrows: ${picture.arrows.map(({ factor }) => factor).join('; ')}.`,
    },
    line(zero.x, top, zero.x, bottom, { stroke: HAIR }),
    line(left, zero.y, right, zero.y, { stroke: HAIR }),
    uprightAxis(y, left),
    levelAxis(x, bottom, fitText(`Axis 1 (${percent(picture.shares[0])})`, right - left, 12), widthPx),
    ...tips.map((tip) => arrow(zero, tip)),
    ...picture.quadrats.map((each, index) => mark(each.shape, points[index]!.x, points[index]!.y)),
    ...labels,
    key.svg,
    notes.svg,
  )
}

/** Places on a shaft that labels should leave free. */
function alongShaft(
  from: { x: number; y: number },
  tip: { x: number; y: number },
): { x: number; y: number }[] {
  const steps = Math.max(2, Math.round(Math.hypot(tip.x - from.x, tip.y - from.y) / 8))
  return Array.from({ length: steps }, (_, index) => ({
    x: from.x + ((tip.x - from.x) * index) / steps,
    y: from.y + ((tip.y - from.y) * index) / steps,
  }))
}

/** A shaft with an open head at its tip. */
function arrow(from: { x: number; y: number }, tip: { x: number; y: number }): string {
  const angle = Math.atan2(tip.y - from.y, tip.x - from.x)
  const barb = (turn: number) => ({
    x: tip.x - 8 * Math.cos(angle + turn),
    y: tip.y - 8 * Math.sin(angle + turn),
  })
  return (
    line(from.x, from.y, tip.x, tip.y, { stroke: PENCIL, 'stroke-width': 1.5 }) +
    tag('path', { d: through([barb(0.4), tip, barb(-0.4)]), fill: 'none', stroke: INK, 'stroke-width': 1.5 })
  )
}
