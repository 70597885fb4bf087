import type { SpeciesMeasure } from '../../../hub/contract/species.ts'
import { readNumber } from '../../read-number.ts'

/** What is being typed from paper: species down, quadrats across. A cell that was not typed is not there. */
export interface TypingGrid {
  measure: SpeciesMeasure
  rows: readonly TypingRow[]
}

export interface TypingRow {
  name: string
  /** by the label of the quadrat, as typed */
  cells: Readonly<Record<string, string>>
}

const ROWS_AT_FIRST = 6

export const blankRow: TypingRow = { name: '', cells: {} }

export function blankGrid(measure: SpeciesMeasure = 'cover-percent'): TypingGrid {
  return { measure, rows: Array.from({ length: ROWS_AT_FIRST }, () => blankRow) }
}

export function withName(grid: TypingGrid, row: number, name: string): TypingGrid {
  return withRow(grid, row, (before) => ({ ...before, name }))
}

/** An emptied cell is blank again, not zero. */
export function withCell(grid: TypingGrid, row: number, quadrat: string, text: string): TypingGrid {
  return withRow(grid, row, ({ name, cells }) => {
    const others = Object.entries(cells).filter(([label]) => label !== quadrat)
    return { name, cells: Object.fromEntries(text === '' ? others : [...others, [quadrat, text]]) }
  })
}

export function withOneMore(grid: TypingGrid): TypingGrid {
  return { ...grid, rows: [...grid.rows, blankRow] }
}

function withRow(grid: TypingGrid, at: number, change: (row: TypingRow) => TypingRow): TypingGrid {
  return { ...grid, rows: grid.rows.map((row, place) => (place === at ? change(row) : row)) }
}

const isFilled = (row: TypingRow) => Object.values(row.cells).some((text) => text.trim() !== '')

export function isBlankGrid({ rows }: TypingGrid): boolean {
  return rows.every((row) => row.name.trim() === '' && !isFilled(row))
}

/** Rows that hold values but no species, counted from 1: they cannot be sent. */
export function namelessRows({ rows }: TypingGrid): number[] {
  return rows.flatMap((row, place) => (row.name.trim() === '' && isFilled(row) ? [place + 1] : []))
}

/** The quadrats across: those of the survey, then any others that something was typed for. */
export function columnsOf({ rows }: TypingGrid, surveyLabels: readonly string[]): string[] {
  return [...new Set([...surveyLabels, ...rows.flatMap(({ cells }) => Object.keys(cells))])]
}

/** What the numbers of one quadrat add up to, %; traces and words count for nothing. Null for other measures, and of blanks. */
export function coverSum({ measure, rows }: TypingGrid, quadrat: string): number | null {
  const typed = rows.flatMap(({ cells }) => cells[quadrat] ?? [])
  if (measure !== 'cover-percent' || typed.length === 0) return null
  const sum = typed.reduce((total, text) => total + (readNumber(text.replace(/\s*%$/, '')) ?? 0), 0)
  return Number(sum.toPrecision(12))
}
