import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import { decodeText } from './decode-text.ts'
import { readFactorTable } from './factor-table.ts'
import { readHubReadings } from './hub-readings.ts'
import type { QuadratValue } from './quadrat-means.ts'
import { readSheet } from './read-sheet.ts'
import { readSeparated } from './separated-text.ts'
import { refuseSheet } from './sheet-refusal.ts'

/** A field day of five quantities at ten quadrats, a reading every ten seconds, is 20 MB of CSV. */
export const READINGS_MAX_BYTES = 200_000_000

export interface QuadratReadings {
  /** labels in the order of the file, each once */
  quadrats: string[]
  values: QuadratValue[]
  /** how it was read, what was left out and why */
  notes: string[]
}

/**
 * Readings of quadrats: the hub’s own clean readings when the headings say quadrat, quantity and value (in any order, with
 * more columns if there are); any other table as one row for each quadrat, a factor in each column of numbers.
 * @param survey  which survey, when the readings are of several
 * @returns a refusal E_READINGS or E_SHEET_… that says what to do
 */
export async function readReadings(
  bytes: Uint8Array,
  fileName: string,
  survey?: string,
): Promise<QuadratReadings | Refusal> {
  const rows = await readRows(bytes, fileName)
  if (isRefusal(rows)) return rows
  const headings = rows[0] ?? []
  const isHub = ['quadrat', 'quantity', 'value'].every((name) => headings.includes(name))
  return isHub ? readHubReadings(rows, fileName, survey) : readFactorTable(rows, fileName)
}

async function readRows(bytes: Uint8Array, fileName: string): Promise<string[][] | Refusal> {
  if (bytes.length > READINGS_MAX_BYTES)
    return refuseSheet(
      'E_SHEET_SIZE',
      `${fileName} has more than ${READINGS_MAX_BYTES / 1e6} MB. Download the readings of one survey, or of a shorter time.`,
    )
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return rowsOfWorkbook(bytes, fileName)
  const decoded = decodeText(bytes)
  if (isRefusal(decoded)) return decoded
  const separated = readSeparated(decoded.text)
  if (isRefusal(separated)) return separated
  const rows = separated.rows
    .map((row) => row.map((text) => text.trim()))
    .filter((row) => row.some((text) => text !== ''))
  if (rows.length >= 2) return rows
  return refuseSheet('E_SHEET_EMPTY', `${fileName} has no readings. Download the clean readings again.`)
}

async function rowsOfWorkbook(bytes: Uint8Array, fileName: string): Promise<string[][] | Refusal> {
  const sheet = await readSheet(bytes, fileName)
  if (isRefusal(sheet)) return sheet
  if ('sheetNames' in sheet)
    return refuseSheet(
      'E_READINGS',
      `${fileName} has several sheets (${sheet.sheetNames.join(', ')}). Save the one with the readings as CSV.`,
    )
  return sheet.grid.rows.map((row) => row.map(({ text }) => text.trim()))
}
