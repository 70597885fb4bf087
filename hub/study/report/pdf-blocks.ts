import type { Content, TableCell } from 'pdfmake/interfaces.js'
import type { Print } from './pdf-sections.ts'
import { type ReportTable, textOf } from './report-model.ts'

/** A4 with margins of 42 points leaves this for text, points. */
const TEXT_WIDTH_POINTS = 511
const LARGEST_PICTURE_POINTS = 690
/** so that the letters of all pictures are of one size */
const POINTS_PER_PX = 0.71
const RULE_POINTS = 22
/** With more columns the letters of a table are smaller. */
const WIDE_TABLE_COLUMNS = 7
/** A table of so many rows is not parted by the end of a page. */
const TOGETHER_ROWS = 14

/** @param heads  headings that stay with the table, over its caption */
export function tableContent(
  { caption, headings, numbers, rows }: ReportTable,
  print: Print,
  heads: readonly Content[],
): Content {
  const align = (column: number) => (numbers.includes(column) ? ('right' as const) : ('left' as const))
  const cell = (text: string, column: number): TableCell => ({ text: print(text), alignment: align(column) })
  const texts = (column: number) => rows.map((row) => textOf([row[column] ?? '']).length)
  // long texts share what is left over; short ones take what they need
  const widths = headings.map((_, column) => (Math.max(0, ...texts(column)) > 24 ? '*' : 'auto'))
  const title: Content = { text: print(caption), style: 'caption' }
  const table: Content = {
    table: {
      // the caption is a row of the head: it stays with the table, and comes again on its next page
      headerRows: 2,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths,
      body: [
        [{ stack: [...heads, title], colSpan: headings.length }, ...headings.slice(1).map(() => '')],
        headings.map((text, column) => ({ text: print(text), bold: true, alignment: align(column) })),
        ...rows.map((row) => headings.map((_, column) => cell(textOf([row[column] ?? '']), column))),
      ],
    },
    layout: {
      hLineWidth: (line) => (line < 2 ? 0 : line === 2 ? 1 : 0.4),
      vLineWidth: () => 0,
      paddingLeft: () => 0,
      paddingRight: () => 8,
      paddingTop: () => 1.5,
      paddingBottom: () => 1,
    },
    fontSize: headings.length > WIDE_TABLE_COLUMNS ? 7.5 : 8.5,
    margin: [0, 0, 0, 6],
  }
  return rows.length <= TOGETHER_ROWS ? { stack: [table], unbreakable: true } : table
}

/** At most as wide as the text, and as high as a page. */
export function pictureContent(svg: string, caption: string, print: Print): Content {
  const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(svg) ?? []
  const ratio = Number(height) / Number(width)
  const shown = Math.min(TEXT_WIDTH_POINTS, Number(width) * POINTS_PER_PX, LARGEST_PICTURE_POINTS / ratio)
  return {
    stack: [
      { svg: print(svg), width: shown, height: shown * ratio },
      { text: print(caption), style: 'caption', margin: [0, 2, 0, 8] },
    ],
    unbreakable: true,
    margin: [0, 6, 0, 0],
  }
}

/** A box with lines to write on. */
export function ruledContent(title: string, lines: number, print: Print): Content {
  return {
    unbreakable: true,
    margin: [0, 4, 0, 6],
    stack: [
      {
        canvas: [
          { type: 'rect', x: 0, y: 0, w: TEXT_WIDTH_POINTS, h: 22 + lines * RULE_POINTS, lineWidth: 1.2 },
          ...Array.from({ length: lines }, (_, index) => ({
            type: 'line' as const,
            x1: 8,
            x2: TEXT_WIDTH_POINTS - 8,
            y1: 16 + (index + 1) * RULE_POINTS,
            y2: 16 + (index + 1) * RULE_POINTS,
            lineWidth: 0.5,
          })),
        ],
      },
      { text: print(title), bold: true, relativePosition: { x: 8, y: -(16 + lines * RULE_POINTS) } },
    ],
  }
}
