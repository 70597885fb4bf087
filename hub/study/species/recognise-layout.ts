import type { Refusal } from '../../../calibration/index.ts'
import { findHeadingRows, type HeadingRows, headingTexts } from './heading-rows.ts'
import { columnSaying, headingSays } from './heading-words.ts'
import { looksLikeQuadrat, quadratKey } from './quadrat-label.ts'
import { readNumber } from './read-value.ts'
import type { SheetGrid } from './sheet-grid.ts'
import { refuseSheet } from './sheet-refusal.ts'
import { taxonKind } from './taxon-name.ts'

export const layoutNames = ['long', 'quadrats-down', 'quadrats-across', 'marks-down'] as const
export type LayoutName = (typeof layoutNames)[number]

export interface RecognisedLayout extends HeadingRows {
  layout: LayoutName
  /** column of the row labels: quadrats, taxa or marks by the layout */
  labelColumn: number
  /** of a list: what stands beside the label; −1 when there is no such column */
  taxonColumn: number
  valueColumn: number
  zoneColumn: number
  sentence: string
  /** what else it could be; a person can say so */
  alsoPossible: LayoutName[]
  /** neither labels nor headings told which way it runs: a person should say */
  isUnsure: boolean
}

export interface LayoutWish {
  /** a person’s word goes before what is recognised */
  layout?: LayoutName
  /** labels of the survey, which settle where the quadrats are */
  quadratLabels?: readonly string[]
}

/**
 * How a table was laid out: a list (quadrat, species, value), quadrats down and species across, species down and quadrats
 * across as on the paper sheet, or a list of marks of a transect. Labels are stronger evidence than the corner’s word.
 * @returns a refusal E_SHEET_LAYOUT when there is no table, or too few columns
 */
export function recogniseLayout(grid: SheetGrid, wish: LayoutWish = {}): RecognisedLayout | Refusal {
  const rows = findHeadingRows(grid)
  if (rows === null)
    return refuseSheet(
      'E_SHEET_LAYOUT',
      'There is only one column. A table of species needs quadrats one way and species the other, or a list of quadrat, species and value.',
    )
  const { texts } = headingTexts(grid, rows)
  const layout = wish.layout ?? listLayout(texts)
  if (layout === 'long' || layout === 'marks-down') return readList(layout, texts, rows)
  return readCross(grid, rows, texts, wish)
}

function listLayout(headings: readonly string[]): LayoutName | undefined {
  const quadrat = columnSaying(headings, 'quadrat')
  if (quadrat >= 0 && columnSaying(headings, 'taxon', quadrat) >= 0) return 'long'
  const mark = columnSaying(headings, 'mark')
  return mark >= 0 && columnSaying(headings, 'touched', mark) >= 0 ? 'marks-down' : undefined
}

function readList(
  layout: 'long' | 'marks-down',
  headings: readonly string[],
  rows: HeadingRows,
): RecognisedLayout {
  const found = (column: number, otherwise: number) => (column >= 0 ? column : otherwise)
  const isLong = layout === 'long'
  const labelColumn = found(columnSaying(headings, isLong ? 'quadrat' : 'mark'), 0)
  const taxonColumn = found(columnSaying(headings, isLong ? 'taxon' : 'touched', labelColumn), 1)
  const valueColumn = isLong ? columnSaying(headings, 'value', labelColumn, taxonColumn) : -1
  const zoneColumn = columnSaying(headings, 'zone', labelColumn, taxonColumn)
  const third = headings.length === 3 && zoneColumn < 0 ? 2 : -1
  return {
    ...rows,
    layout,
    labelColumn,
    taxonColumn,
    valueColumn: isLong ? found(valueColumn, third) : -1,
    zoneColumn,
    sentence: isLong
      ? 'Read as a list: one row for each species in each quadrat.'
      : 'Read as a list of marks on the tape, each with what touches it.',
    alsoPossible: isLong ? ['quadrats-down'] : ['long'],
    isUnsure: false,
  }
}

function readCross(
  grid: SheetGrid,
  rows: HeadingRows,
  headings: readonly string[],
  { layout: said, quadratLabels = [] }: LayoutWish,
): RecognisedLayout {
  const labelColumn = findLabelColumn(grid, rows.headingRow, headings)
  const known = new Set(quadratLabels.map(quadratKey))
  const heads = headings.slice(labelColumn + 1)
  const sides = grid.rows.slice(rows.headingRow + 1).map((row) => row[labelColumn]!.text)
  const isKnown = (text: string) => known.has(quadratKey(text))
  const isQuadrat = [...heads, ...sides].some(isKnown) ? isKnown : looksLikeQuadrat
  const [across, down] = [share(heads, isQuadrat), share(sides, isQuadrat)]
  const corner = headings[labelColumn] ?? ''
  const byLabels = across !== down && Math.max(across, down) >= 0.5
  const byCorner = headingSays(corner, 'quadrat') ? 'quadrats-down' : 'quadrats-across'
  const layout = said ?? (byLabels ? (across > down ? 'quadrats-across' : 'quadrats-down') : byCorner)
  const isAcross = layout === 'quadrats-across'
  return {
    ...rows,
    layout,
    labelColumn,
    taxonColumn: -1,
    valueColumn: -1,
    zoneColumn: -1,
    sentence: `Read with ${isAcross ? 'species down and quadrats across' : 'quadrats down and species across'}${rows.groupRow === null ? '' : ', under two rows of headings'}.`,
    alsoPossible: [isAcross ? 'quadrats-down' : 'quadrats-across'],
    isUnsure:
      said === undefined && !byLabels && !headingSays(corner, 'quadrat') && !headingSays(corner, 'taxon'),
  }
}

/** Of the labels that could be either, the part that are quadrats, 0–1. */
function share(texts: readonly string[], isQuadrat: (text: string) => boolean): number {
  const named = texts.filter((text) => text.trim() !== '' && taxonKind(text) === 'taxon')
  return named.length === 0 ? 0 : named.filter(isQuadrat).length / named.length
}

/**
 * The column whose heading says quadrat or species, if one of the first three does; else the first column, or the second
 * when the first only names groups of rows, with gaps.
 */
function findLabelColumn({ rows }: SheetGrid, headingRow: number, headings: readonly string[]): number {
  const said = headings
    .slice(0, 3)
    .findIndex((text) => headingSays(text, 'quadrat') || headingSays(text, 'taxon'))
  if (said >= 0) return said
  const below = rows.slice(headingRow + 1)
  const filled = (column: number) => below.filter((row) => (row[column]?.kind ?? 'blank') !== 'blank')
  const second = filled(1)
  const isText = second.filter((row) => readNumber(row[1]!.text) === null).length > second.length / 2
  return isText && filled(0).length <= second.length / 2 && headings.length > 2 ? 1 : 0
}
