import { hatch, INK, PENCIL, SMALL_PX, WASH } from './look.ts'
import { drawNotes } from './notes.ts'
import { svgFile, tag, words } from './svg-text.ts'
import { fitText, wrapText } from './text-width.ts'

/** null: nothing clean there */
export type MatrixCell = { used: number; received: number } | null

export interface CompletenessPicture {
  /** quantities with how they were measured */
  columns: readonly string[]
  rows: readonly { quadrat: string; cells: readonly MatrixCell[] }[]
}

const ROW_PX = 22
const HEAD_LINE_PX = 13

/** What there is, quadrat by quantity: used of received, a hatched cell where some were left out, “none” where all are missing. */
export function completenessMatrix(
  { columns, rows }: CompletenessPicture,
  widthPx: number,
  id: string,
): string {
  const left = 76
  const columnPx = (widthPx - left - 10) / Math.max(1, columns.length)
  const heads = columns.map((name) => wrapText(name, columnPx - 6, SMALL_PX))
  const headPx = Math.max(1, ...heads.map((lines) => lines.length)) * HEAD_LINE_PX + 10
  const head = heads.flatMap((lines, column) =>
    lines.map((text, index) =>
      words(left + (column + 0.5) * columnPx, headPx - 8 - (lines.length - 1 - index) * HEAD_LINE_PX, text, {
        'text-anchor': 'middle',
        'font-size': SMALL_PX,
        'font-weight': 'bold',
      }),
    ),
  )
  const body = rows.map(({ quadrat, cells }, row) => {
    const y = headPx + row * ROW_PX
    const name = words(left - 8, y + 15, fitText(quadrat, left - 12, 12), { 'text-anchor': 'end' })
    return (
      name + cells.map((cell, column) => drawCell(cell, left + column * columnPx, y, columnPx, id)).join('')
    )
  })
  const bottom = headPx + rows.length * ROW_PX
  const notes = drawNotes(
    [
      'In each cell: clean values used of those received (insertions of a carried meter, or readings of one that logged).',
      'White: all were used. Hatched: some were left out, and the report says why. “none”: no clean value.',
    ],
    12,
    bottom + 4,
    widthPx - 24,
  )
  const full = rows.flatMap(({ cells }) => cells).filter((cell) => cell !== null).length
  return svgFile(
    {
      widthPx,
      heightPx: bottom + notes.heightPx + 14,
      title: 'What was measured where',
      description: `${full} of ${rows.length * columns.length} cells, quadrat by quantity, have clean values.`,
    },
    tag('defs', {}, hatch(`${id}-some`, 45, 7, '#fff')),
    ...head,
    ...body,
    notes.svg,
  )
}

function drawCell(cell: MatrixCell, x: number, y: number, columnPx: number, id: string): string {
  const box = { x, y, width: columnPx, height: ROW_PX, stroke: INK, 'stroke-width': 0.8 }
  const centred = { 'text-anchor': 'middle', 'font-size': SMALL_PX }
  if (cell === null)
    return (
      tag('rect', { ...box, fill: '#d5d5d5' }) +
      words(x + columnPx / 2, y + 15, 'none', { ...centred, fill: INK })
    )
  const { used, received } = cell
  const text = fitText(`${used}/${received}`, columnPx - 8, SMALL_PX)
  const isWhole = used >= received
  const paper = isWhole
    ? ''
    : tag('rect', { x: x + 5, y: y + 4, width: columnPx - 10, height: ROW_PX - 8, fill: WASH })
  return (
    tag('rect', { ...box, fill: isWhole ? '#fff' : `url(#${id}-some)` }) +
    paper +
    words(x + columnPx / 2, y + 15, text, { ...centred, fill: isWhole ? PENCIL : INK })
  )
}
