import type { Refusal } from '../../../calibration/index.ts'
import { columnSaying } from './heading-words.ts'
import type { QuadratValue } from './quadrat-means.ts'
import { type Measured, summariseQuadrats } from './quadrat-means.ts'
import type { QuadratReadings } from './read-readings.ts'
import { plainText, readNumber } from './read-value.ts'
import { refuseSheet } from './sheet-refusal.ts'

const missing = new Set(['', 'na', 'n/a', '-', '–', '.', 'nan'])

/**
 * Any table with quadrats down and factors across: the quadrats are in the column whose heading says so, or else in the
 * first; every other column in which at least half of what is filled is a number is a factor. One row for a quadrat is
 * taken as it stands; several rows are summarised, as the hub’s own readings are.
 */
export function readFactorTable(
  rows: readonly (readonly string[])[],
  fileName: string,
): QuadratReadings | Refusal {
  const headings = rows[0] ?? []
  const said = columnSaying(headings, 'quadrat')
  const labelColumn = Math.max(said, 0)
  const below = rows.slice(1).filter((row) => (row[labelColumn] ?? '') !== '')
  const quadrats = [...new Set(below.map((row) => row[labelColumn]!))]
  const columns = headings.map((_, column) => column).filter((column) => column !== labelColumn)
  const factors = columns.filter((column) => isFactor(below, column))
  const aside = columns
    .filter((column) => !factors.includes(column))
    .map((column) => headings[column] || `column ${column + 1}`)
  if (factors.length === 0)
    return refuseSheet(
      'E_READINGS',
      `${fileName} has no column of numbers beside the quadrats. It should be the hub’s clean readings, or one row for each quadrat with a factor in each column.`,
    )
  const notNumbers: string[] = []
  const measured = below.flatMap((row) =>
    factors.flatMap((column): Measured[] => {
      const text = row[column] ?? ''
      const value = readNumber(text)
      if (value === null && !missing.has(plainText(text)))
        notNumbers.push(`“${text}” (${row[labelColumn]}, ${headings[column]})`)
      const quantity = headings[column] || `column ${column + 1}`
      return value === null ? [] : [{ quadrat: row[labelColumn]!, quantity, method: '', unit: '', value }]
    }),
  )
  return {
    quadrats,
    values: quadrats.length === below.length ? measured.map(asGiven) : summariseQuadrats(measured),
    notes: [
      `${fileName} was read as a table with quadrats in the column “${headings[labelColumn] || 1}”${said < 0 ? ', the first' : ''} and ${factors.length} factors; it has ${below.length} rows for ${quadrats.length} quadrats.`,
      ...(aside.length === 0 ? [] : [`Not numbers, left aside: ${aside.join(', ')}.`]),
      ...(notNumbers.length === 0 ? [] : [`Not a number, taken as not recorded: ${notNumbers.join(', ')}.`]),
    ],
  }
}

function isFactor(rows: readonly (readonly string[])[], column: number): boolean {
  const filled = rows.map((row) => row[column] ?? '').filter((text) => !missing.has(plainText(text)))
  return filled.length > 0 && filled.filter((text) => readNumber(text) !== null).length >= filled.length / 2
}

function asGiven(measured: Measured): QuadratValue {
  return { ...measured, n: 1, statistic: 'as given', uncertainty: null }
}
