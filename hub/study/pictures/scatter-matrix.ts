import { roomForTicks, uprightAxis } from './axes.ts'
import { scaleFor } from './linear-scale.ts'
import { INK, type MarkShape, SMALL_PX } from './look.ts'
import { drawMarkKey } from './mark-key.ts'
import { drawNotes } from './notes.ts'
import { type ScatterPoint, scatterPoints, scatterSpan } from './scatter-panel.ts'
import { line, svgFile, tag, words } from './svg-text.ts'
import { fitText, textWidth, wrapText } from './text-width.ts'
import { tickTexts } from './ticks.ts'

export interface MatrixPicture {
  /** with their units, as columns */
  factors: readonly string[]
  /** as rows */
  species: readonly string[]
  /** of the species, with its unit */
  speciesAxis: string
  /** by row, then column */
  cells: readonly (readonly { points: readonly ScatterPoint[]; figures: string }[])[]
  key: readonly { shape: MarkShape; text: string }[]
  notes: readonly string[]
}

const ROW_HEAD_PX = 34
const PLOT_PX = 96

/** Every factor beside every species: rows share the upright axis, columns the level one. */
export function scatterMatrix(picture: MatrixPicture, widthPx: number): string {
  const yScales = picture.cells.map((row) =>
    scaleFor(
      row.flatMap(({ points }) => scatterSpan(points).y),
      PLOT_PX - 7,
      7,
      4,
    ),
  )
  const left = Math.max(34, ...yScales.map(roomForTicks)) + 4
  const columnPx = (widthPx - left - 14) / picture.factors.length
  const columns = picture.factors.map((_, column) => {
    const from = left + column * columnPx
    const to = from + columnPx - 14
    const values = picture.cells.flatMap((row) => scatterSpan(row[column]!.points).x)
    return { from, to, scale: scaleFor(values, from + 6, to - 6, Math.max(3, Math.floor(columnPx / 55))) }
  })
  const parts: string[] = []
  let top = 0
  for (const [row, cells] of picture.cells.entries()) {
    const plotTop = top + ROW_HEAD_PX
    const y = { ...yScales[row]!, at: (value: number) => plotTop + yScales[row]!.at(value) }
    parts.push(
      words(8, top + 14, fitText(picture.species[row]!, widthPx - 16, 12), {
        'font-weight': 'bold',
        'font-style': 'italic',
      }),
      uprightAxis(y, left, undefined),
    )
    for (const [column, { points, figures }] of cells.entries()) {
      const { from, to, scale } = columns[column]!
      parts.push(
        tag('rect', { x: from, y: plotTop, width: to - from, height: PLOT_PX, fill: 'none', stroke: INK }),
        words(from + 1, plotTop - 5, fitText(figures, to - from + 10, SMALL_PX), { 'font-size': SMALL_PX }),
        scatterPoints(points, scale, y, 3),
      )
    }
    top = plotTop + PLOT_PX + 10
  }
  const heads = columns.map(({ from, to, scale }, column) =>
    columnFoot(scale, picture.factors[column]!, from, to, top - 10, columnPx),
  )
  const footPx = Math.max(...heads.map(({ heightPx }) => heightPx))
  const key = drawMarkKey(picture.key, left, top + footPx, widthPx - left - 10)
  const notes = drawNotes(picture.notes, left, top + footPx + key.heightPx + 2, widthPx - left - 10)
  return svgFile(
    {
      widthPx,
      heightPx: top + footPx + key.heightPx + notes.heightPx + 8,
      title: 'Every factor beside every species',
      description: `Columns: ${picture.factors.join('; ')}. Rows: ${picture.species.join('; ')}, ${picture.speciesAxis}. ${picture.notes.join(' ')}`,
    },
    ...parts,
    ...heads.map(({ svg }) => svg),
    key.svg,
    notes.svg,
  )
}

/** Ticks and the name of a factor under its column. */
function columnFoot(
  scale: { at(value: number): number; ticks: readonly number[] },
  name: string,
  from: number,
  to: number,
  y: number,
  columnPx: number,
): { svg: string; heightPx: number } {
  const texts = tickTexts(scale.ticks)
  let reached = -Infinity
  const ticks = scale.ticks.map((tick, index) => {
    const x = scale.at(tick)
    const half = textWidth(texts[index]!, SMALL_PX) / 2
    const hasRoom = x - half > reached && x + half < to + 14
    if (hasRoom) reached = x + half + 3
    return (
      line(x, y, x, y + 4, { stroke: INK }) +
      (hasRoom ? words(x, y + 16, texts[index]!, { 'text-anchor': 'middle', 'font-size': SMALL_PX }) : '')
    )
  })
  const lines = wrapText(name, columnPx - 8, SMALL_PX)
  const named = lines.map((text, index) =>
    words((from + to) / 2, y + 32 + index * 13, text, { 'text-anchor': 'middle', 'font-size': SMALL_PX }),
  )
  return { svg: ticks.join('') + named.join(''), heightPx: 32 + lines.length * 13 }
}
