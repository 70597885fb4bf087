import { CsvError, parse } from 'csv-parse/sync'
import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import { refuseSheet } from './sheet-refusal.ts'

export type Separator = 'comma' | 'semicolon' | 'tab'

/** Rarest in ordinary text first: of two that divide the lines equally well, the rarer was meant. */
const signs: Readonly<Record<Separator, string>> = { tab: '\t', semicolon: ';', comma: ',' }

/**
 * Text to rows of cells, by RFC 4180: quoted cells may hold separators, line breaks and doubled quotes; spaces belong to
 * the cell. Line ends may be CR LF, LF or CR; rows may be of unequal length. Separator: see {@link findSeparator}.
 * @returns a refusal E_SHEET_DAMAGED for a quote that is not closed or stands inside an unquoted cell
 */
export function readSeparated(text: string): { rows: string[][]; separator: Separator } | Refusal {
  const separator = findSeparator(text)
  const rows = parseWith(text, separator)
  return isRefusal(rows) ? rows : { rows, separator }
}

/**
 * The separator that divides most of the first lines into as many cells. A title above the table may have commas of its
 * own, and a decimal comma is no separator where semicolons or tabs divide the lines.
 */
export function findSeparator(text: string): Separator {
  const lines = unquoted(text.slice(0, 20_000))
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, 50)
  let best: { separator: Separator; score: number } = { separator: 'comma', score: Number.NEGATIVE_INFINITY }
  for (const [separator, sign] of Object.entries(signs) as [Separator, string][]) {
    const counts = lines.map((line) => line.split(sign).length - 1)
    const first = counts.findIndex((count) => count > 0)
    if (first === -1) continue
    const usual = mostFrequent(counts.slice(first).filter((count) => count > 0))
    const alike = counts.filter((count) => count === usual).length
    // below a line that is divided, one that is not: that was no table's line
    const undivided = counts.slice(first).filter((count) => count === 0).length
    const score = (alike - undivided) / lines.length - first / 1000
    if (score > best.score) best = { separator, score }
  }
  return best.separator
}

function mostFrequent(counts: readonly number[]): number {
  const often = new Map<number, number>()
  for (const count of counts) often.set(count, (often.get(count) ?? 0) + 1)
  return [...often].reduce((most, each) => (each[1] > most[1] ? each : most))[0]
}

function unquoted(text: string): string {
  return text.replace(/"(?:[^"]|"")*"/g, '')
}

function parseWith(text: string, separator: Separator): string[][] | Refusal {
  try {
    return parse(text, {
      delimiter: signs[separator],
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      bom: true,
    })
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    if (error.code === 'CSV_QUOTE_NOT_CLOSED')
      return refuseSheet(
        'E_SHEET_DAMAGED',
        'A cell begins with a quotation mark that is never closed. Take that " away, or save the file again from the spreadsheet.',
      )
    return refuseSheet(
      'E_SHEET_DAMAGED',
      `The quotation marks do not fit near line ${error['lines']}: a cell that begins with " must end with ", and a " inside it is written "". Correct that line, or save the file again from the spreadsheet.`,
    )
  }
}
