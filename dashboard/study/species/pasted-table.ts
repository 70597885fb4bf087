import { csvLine } from './csv-line.ts'

/**
 * A table copied from a spreadsheet, as CSV. Spreadsheets put tabs between cells, and quotation marks around a cell that
 * holds a tab, a line end or such a mark itself. Text without a tab is a file's own text: it is left as it is.
 * @param pasted  as the clipboard gives it
 */
export function pastedAsCsv(pasted: string): string {
  if (!pasted.includes('\t')) return pasted
  return pastedRows(pasted).map(csvLine).join('')
}

function pastedRows(pasted: string): string[][] {
  const rows: string[][] = []
  let row: string[] = []
  const cell = /(?:"((?:[^"]|"")*)"(?=\t|\r?\n|\r|$)|([^\t\r\n]*))(\t|\r\n|\n|\r|$)/gy
  while (cell.lastIndex < pasted.length) {
    const found = cell.exec(pasted)
    if (!found) break
    row.push(found[1] === undefined ? (found[2] ?? '') : found[1].replaceAll('""', '"'))
    if (found[3] === '\t' && cell.lastIndex === pasted.length) row.push('')
    if (found[3] === '\t' && cell.lastIndex < pasted.length) continue
    rows.push(row)
    row = []
  }
  return rows
}
