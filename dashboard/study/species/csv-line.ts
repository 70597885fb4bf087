/**
 * A row of cells as a line of CSV by RFC 4180, for the hub's own reader. Unlike a download it keeps every cell as typed:
 * `+` is a trace, and no apostrophe is put before it.
 */
export function csvLine(cells: readonly string[]): string {
  return `${cells.map((text) => (/[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)).join(',')}\r\n`
}
