import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Content, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces.js'
import { printable, signsOf } from './font-signs.ts'
import { type Block, type ReportModel, type ReportSection, type ReportTable, textOf } from './report-model.ts'

/** A4 with margins of 42 points leaves this for text, points. */
const TEXT_WIDTH_POINTS = 511
const LARGEST_PICTURE_POINTS = 690
/** so that the letters of all pictures are of one size */
const POINTS_PER_PX = 0.71
/** share of the page’s height */
const LOWEST_HEADING = 0.86
const RULE_POINTS = 22
/** With more columns the letters of a table are smaller. */
const WIDE_TABLE_COLUMNS = 7

const require = createRequire(import.meta.url)
const fontFile = (style: string) => require.resolve(`pdfmake/fonts/Roboto/Roboto-${style}.ttf`)

/** The report as a PDF of A4 pages, with its fonts in it and its pictures as vectors. */
export async function renderPdf(report: ReportModel): Promise<Uint8Array> {
  const { default: pdfmake } = await import('pdfmake')
  const fonts = {
    Roboto: {
      normal: fontFile('Regular'),
      bold: fontFile('Medium'),
      italics: fontFile('Italic'),
      bolditalics: fontFile('MediumItalic'),
    },
  }
  const known = new Set(Object.values(fonts.Roboto))
  pdfmake.setFonts(fonts)
  pdfmake.setUrlAccessPolicy(() => false)
  pdfmake.setLocalAccessPolicy((path) => known.has(path))
  const signs = signsOf(readFileSync(fonts.Roboto.normal))
  return pdfmake.createPdf(definition(report, (text) => printable(text, signs))).getBuffer()
}

type Print = (text: string) => string

function definition(report: ReportModel, print: Print): TDocumentDefinitions {
  return {
    pageSize: 'A4',
    pageMargins: [42, 44, 42, 46],
    info: { title: print(report.title), creator: 'Tussock' },
    defaultStyle: { font: 'Roboto', fontSize: 9.5, lineHeight: 1.2 },
    styles: {
      title: { fontSize: 20, bold: true },
      subtitle: { fontSize: 11.5, italics: true, margin: [0, 2, 0, 8] },
      section: { fontSize: 14, bold: true, margin: [0, 14, 0, 5] },
      heading: { fontSize: 10.5, bold: true, margin: [0, 8, 0, 2] },
      note: { fontSize: 8.5, italics: true, margin: [0, 2, 0, 6] },
      caption: { fontSize: 9, bold: true, margin: [0, 5, 0, 1] },
    },
    footer: (page, pages) => ({
      columns: [
        { text: print(report.foot), fontSize: 7.5 },
        { text: `${page} / ${pages}`, fontSize: 7.5, alignment: 'right', width: 50 },
      ],
      margin: [42, 14, 42, 0],
    }),
    // a heading does not stand alone at the foot of a page
    pageBreakBefore: ({ headlineLevel, startPosition }) =>
      headlineLevel !== undefined && startPosition.verticalRatio > LOWEST_HEADING,
    content: [
      { text: print(report.title), style: 'title' },
      { text: print(report.subtitle), style: 'subtitle' },
      ...report.sections.flatMap((section) => sectionContent(section, print)),
    ],
  }
}

function sectionContent({ title, blocks, beginsPage }: ReportSection, print: Print): Content[] {
  const [first = [], ...others] = keptTogether(blocks)
  const heading: Content = { text: print(title), style: 'section', headlineLevel: 1 }
  return [
    ...(beginsPage ? [{ text: '', pageBreak: 'before' as const }] : []),
    ...groupContent(first, print, [heading]),
    ...others.flatMap((group) => groupContent(group, print)),
  ]
}

/** A heading goes with what follows it. */
function keptTogether(blocks: readonly Block[]): Block[][] {
  const groups: Block[][] = []
  for (const [index, block] of blocks.entries())
    if (index > 0 && blocks[index - 1]!.kind === 'heading') groups.at(-1)!.push(block)
    else groups.push([block])
  return groups
}

/** What is longer than this may be parted by the end of a page after all, letters. */
const TOGETHER_LETTERS = 900
const TOGETHER_ROWS = 14

function groupContent(group: readonly Block[], print: Print, before: readonly Content[] = []): Content[] {
  const content = [...before, ...group.flatMap((block) => blockContent(block, print))]
  const isTogether = (content.length > 1 || group[0]?.kind === 'table') && group.every(isShort)
  return isTogether ? [{ stack: content, unbreakable: true }] : content
}

function isShort(block: Block): boolean {
  if (block.kind === 'list') return false
  if (block.kind === 'table') return block.rows.length <= TOGETHER_ROWS
  return block.kind !== 'paragraph' || textOf(block.parts).length < TOGETHER_LETTERS
}

function blockContent(block: Block, print: Print): Content[] {
  switch (block.kind) {
    case 'heading':
      return [{ text: print(block.text), style: 'heading', headlineLevel: 2 }]
    case 'paragraph':
      return [{ text: print(textOf(block.parts)), margin: [0, 0, 0, 5] }]
    case 'note':
      return [{ text: print(block.text), style: 'note' }]
    case 'list':
      return [{ ul: block.items.map((item) => print(textOf(item))), margin: [0, 0, 0, 5] }]
    case 'table':
      return [tableContent(block, print)]
    case 'picture':
      return [pictureContent(block.svg, block.caption, print)]
    case 'ruled':
      return [ruledContent(block.title, block.lines, print)]
  }
}

function tableContent({ caption, headings, numbers, rows }: ReportTable, print: Print): Content {
  const align = (column: number) => (numbers.includes(column) ? ('right' as const) : ('left' as const))
  const cell = (text: string, column: number): TableCell => ({ text: print(text), alignment: align(column) })
  const texts = (column: number) => rows.map((row) => textOf([row[column] ?? '']).length)
  // long texts share what is left over; short ones take what they need
  const widths = headings.map((_, column) => (Math.max(0, ...texts(column)) > 24 ? '*' : 'auto'))
  return {
    table: {
      // the caption is a row of the head: it stays with the table, and comes again on its next page
      headerRows: 2,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths,
      body: [
        [
          { text: print(caption), style: 'caption', colSpan: headings.length },
          ...headings.slice(1).map(() => ''),
        ],
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
}

/** At most as wide as the text, and as high as a page. */
function pictureContent(svg: string, caption: string, print: Print): Content {
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
function ruledContent(title: string, lines: number, print: Print): Content {
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
