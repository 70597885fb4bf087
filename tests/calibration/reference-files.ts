import { readFileSync } from 'node:fs'

const folder = new URL('../reference/', import.meta.url)

/** A reference file of published values, as JSON. */
export function referenceJson(name: string) {
  return JSON.parse(readFileSync(new URL(name, folder), 'utf8'))
}

/** Rows of a reference table, by column name. */
export function referenceRows(name: string): Record<string, string>[] {
  const [head, ...rows] = readFileSync(new URL(name, folder), 'utf8').trim().split(/\r?\n/)
  const columns = splitLine(head ?? '')
  return rows.map((row) => {
    const cells = splitLine(row)
    return Object.fromEntries(columns.map((column, k) => [column, cells[k] ?? '']))
  })
}

/** A comma-separated line with quoted cells; a doubled quote is a quote. */
function splitLine(line: string): string[] {
  const cells = [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map((match) => match[1] ?? '')
  return cells.map((cell) => (cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell))
}
