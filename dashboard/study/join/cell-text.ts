/** A cell of the joined table as it is shown: long fractions at four significant digits, nothing for not recorded. */
export function joinedCellText(cell: string | number | null): string {
  if (cell === null) return ''
  if (typeof cell === 'string') return cell
  return Number.isInteger(cell) ? String(cell) : String(Number(cell.toPrecision(4)))
}
