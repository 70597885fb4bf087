/**
 * One cell of CSV: quoted where RFC 4180 asks for it. Text that a spreadsheet would run as a formula gets an apostrophe
 * first, as in the hub's own downloads.
 * @see OWASP, CSV injection: cells that begin with = + - @ tab or carriage return
 */
export function csvCell(text: string): string {
  const harmless = /^[=+\-@\t\r]/.test(text) && !/^[+-]?\d+(\.\d+)?$/.test(text) ? `'${text}` : text
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless
}

/** A table as CSV: every row, the heading too, ends in CR LF. */
export function csvText(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('')
}

/** The rows of a CSV text, the heading first. */
export function csvRows(text: string): string[][] {
  const rows: string[][] = []
  let row: string[] = []
  // a cell, quoted or bare, and what ends it
  const cells = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n|$)/gy
  while (cells.lastIndex < text.length) {
    const found = cells.exec(text)
    if (!found) break
    row.push(found[1] === undefined ? (found[2] ?? '') : found[1].replaceAll('""', '"'))
    if (found[3] === ',') {
      // a comma at the very end is followed by an empty cell
      if (cells.lastIndex === text.length) row.push('')
      else continue
    }
    rows.push(row)
    row = []
  }
  return rows
}
