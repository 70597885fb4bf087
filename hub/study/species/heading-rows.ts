import { looksLikeQuadrat } from './quadrat-label.ts'
import { readNumber } from './read-value.ts'
import type { SheetGrid } from './sheet-grid.ts'

export interface HeadingRows {
  /** the row of the headings themselves, counted from 0 */
  headingRow: number
  /** a row of groups above it, such as shade and open; null when there is none */
  groupRow: number | null
  /** lines above the table */
  title: string
}

/** The headings: the first row with at least two filled cells, or the one below it when that is a row of groups. */
export function findHeadingRows(grid: SheetGrid): HeadingRows | null {
  const first = grid.rows.findIndex((row) => row.filter(({ kind }) => kind !== 'blank').length >= 2)
  if (first < 0) return null
  const title = grid.rows
    .slice(0, first)
    .flatMap((row) => row.map(({ text }) => text.trim()).filter((text) => text !== ''))
    .join(' ')
  return isGroupRow(grid, first)
    ? { headingRow: first + 1, groupRow: first, title }
    : { headingRow: first, groupRow: null, title }
}

/** The heading texts, and over each the name of its group: a group’s name stands at its first column only. */
export function headingTexts(grid: SheetGrid, { headingRow, groupRow }: HeadingRows) {
  const texts = (grid.rows[headingRow] ?? []).map(({ text }) => text.trim())
  let group = ''
  const groups = texts.map((_, column) => {
    if (groupRow === null) return ''
    group = grid.rows[groupRow]?.[column]?.text.trim() || group
    return group
  })
  return { texts, groups }
}

/**
 * A row of groups has gaps over filled headings, none of its names is a quadrat’s, and below it there are still headings:
 * words, or labels counted up. Merged cells beside each other say the same without that.
 */
function isGroupRow({ rows, merges }: SheetGrid, row: number): boolean {
  const upper = (rows[row] ?? []).slice(1)
  const lower = (rows[row + 1] ?? []).slice(1)
  if (rows.length < row + 3) return false
  const hasGap = upper.some((cell, column) => cell.kind === 'blank' && lower[column]!.kind !== 'blank')
  const named = upper.filter(({ kind }) => kind !== 'blank')
  if (!hasGap || named.length === 0 || named.some(({ text }) => looksLikeQuadrat(text))) return false
  if (merges.some(({ fromRow, fromColumn, toColumn }) => fromRow === row && toColumn > fromColumn))
    return true
  const numbers = lower.flatMap(({ text }) => readNumber(text) ?? [])
  return numbers.length === 0 || isCountedUp(numbers)
}

/** 1 2 3 1 2: each is one more than the one before, or begins again at the first. */
function isCountedUp(numbers: readonly number[]): boolean {
  return (
    numbers.length > 2 &&
    numbers.every(
      (number, place) => place === 0 || number === numbers[place - 1]! + 1 || number === numbers[0],
    )
  )
}
