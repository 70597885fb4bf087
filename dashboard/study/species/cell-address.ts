export interface CellPlace {
  /** both counted from 0 */
  row: number
  column: number
}

/** `B7` is row 6, column 1; null for what is no address of a cell. */
export function placeOfCell(address: string): CellPlace | null {
  const match = /^([A-Z]{1,3})([1-9]\d*)$/.exec(address)
  if (!match) return null
  const column = [...match[1]!].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1
  return { row: Number(match[2]) - 1, column }
}

/** The letters over a column counted from 0: A … Z, AA … */
export function columnLetters(column: number): string {
  let letters = ''
  for (let rest = column; rest >= 0; rest = Math.floor(rest / 26) - 1)
    letters = String.fromCharCode(65 + (rest % 26)) + letters
  return letters
}

/** Row 6, column 1 is `B7`. */
export function addressAt({ row, column }: CellPlace): string {
  return `${columnLetters(column)}${row + 1}`
}
