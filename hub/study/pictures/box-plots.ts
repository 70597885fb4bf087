import { roomForTicks, uprightAxis } from './axes.ts'
import { type BoxNumbers, boxNumbers } from './box-numbers.ts'
import { type LinearScale, scaleFor } from './linear-scale.ts'
import { INK, mark, PENCIL, SMALL_PX, WASH } from './look.ts'
import { drawNotes } from './notes.ts'
import { line, svgFile, tag, words } from './svg-text.ts'
import { fitText, wrapText } from './text-width.ts'

export interface BoxPicture {
  factors: readonly {
    /** with its unit */
    name: string
    groups: readonly { zone: string; values: readonly number[] }[]
  }[]
  notes: readonly string[]
}

/** narrower panels cannot be read */
const NARROWEST_PX = 235
const PANEL_PX = 250
const PLOT_TOP_PX = 40
const PLOT_BOTTOM_PX = 200

/** Each factor by zone, one panel a factor: box, whiskers and every value; of fewer than five values the points only. */
export function boxPlots({ factors, notes }: BoxPicture, widthPx: number): string {
  const columns = Math.max(1, Math.min(factors.length, Math.floor(widthPx / NARROWEST_PX)))
  const panelPx = (widthPx - 8) / columns
  const panels = factors.map((factor, index) =>
    drawPanel(factor, 4 + (index % columns) * panelPx, Math.floor(index / columns) * PANEL_PX, panelPx - 8),
  )
  const bottom = Math.ceil(factors.length / columns) * PANEL_PX
  const said = drawNotes(notes, 12, bottom, widthPx - 24)
  return svgFile(
    {
      widthPx,
      heightPx: bottom + said.heightPx + 6,
      title: 'Factors by zone',
      description: [...factors.map(describeFactor), ...notes].join(' '),
    },
    ...panels,
    said.svg,
  )
}

function drawPanel(
  { name, groups }: BoxPicture['factors'][number],
  x: number,
  top: number,
  widthPx: number,
): string {
  const scale = scaleFor(
    groups.flatMap(({ values }) => [...values]),
    top + PLOT_BOTTOM_PX,
    top + PLOT_TOP_PX,
    6,
  )
  const left = x + Math.max(40, roomForTicks(scale))
  const right = x + widthPx - 6
  const slot = (right - left) / groups.length
  const title = wrapText(name, widthPx - 8, 12).slice(0, 2)
  return [
    ...title.map((text, index) => words(x + 4, top + 16 + index * 14, text, { 'font-weight': 'bold' })),
    uprightAxis(scale, left, right),
    ...groups.map(({ zone, values }, index) => {
      const middle = left + (index + 0.5) * slot
      const centred = { 'text-anchor': 'middle', 'font-size': SMALL_PX }
      return (
        drawGroup(values, scale, middle, slot) +
        words(middle, top + PLOT_BOTTOM_PX + 18, fitText(zone, slot - 4, SMALL_PX), centred) +
        words(middle, top + PLOT_BOTTOM_PX + 32, `n = ${values.length}`, { ...centred, fill: PENCIL })
      )
    }),
  ].join('')
}

function drawGroup(values: readonly number[], scale: LinearScale, middle: number, slot: number): string {
  const numbers = boxNumbers(values)
  const half = Math.min(34, slot * 0.32)
  const box = numbers === null ? '' : drawBox(numbers, scale, middle, half)
  // side by side in a fixed order, so that equal values do not hide each other
  const step = Math.min(7, (2 * half) / Math.max(1, values.length))
  const points = values.map((value, index) =>
    mark('ring', middle + (index - (values.length - 1) / 2) * step, scale.at(value), 2.6),
  )
  return box + points.join('')
}

function drawBox(numbers: BoxNumbers, scale: LinearScale, middle: number, half: number): string {
  const [high, low] = [scale.at(numbers.upperQuartile), scale.at(numbers.lowerQuartile)]
  const whisker = (value: number, from: number) =>
    line(middle, from, middle, scale.at(value), { stroke: INK }) +
    line(middle - half / 2, scale.at(value), middle + half / 2, scale.at(value), { stroke: INK })
  const middleY = scale.at(numbers.median)
  return [
    whisker(numbers.whiskerHigh, high),
    whisker(numbers.whiskerLow, low),
    tag('rect', { x: middle - half, y: high, width: 2 * half, height: low - high, fill: WASH, stroke: INK }),
    line(middle - half, middleY, middle + half, middleY, { stroke: INK, 'stroke-width': 3 }),
  ].join('')
}

function describeFactor({ name, groups }: BoxPicture['factors'][number]): string {
  return `${name}: ${groups.map(({ zone, values }) => `${zone} n = ${values.length}`).join(', ')}.`
}
