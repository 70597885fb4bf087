/** A box to type in; column −1 holds the names. */
export interface BoxPlace {
  row: number
  column: number
}

/** Where the cursor stands in the text of the box. */
export interface Caret {
  start: number
  end: number
  length: number
}

/**
 * Where a key leads from a box, as on the paper: down the species of one quadrat, then to the top of the next. Left and
 * right leave a box only at the end of its text. Null: the key is for the box itself.
 */
export function moveFrom(
  { row, column }: BoxPlace,
  key: string,
  size: { rows: number; columns: number },
  caret: Caret,
): BoxPlace | null {
  const last = size.rows - 1
  switch (key) {
    case 'ArrowUp':
      return row > 0 ? { row: row - 1, column } : null
    case 'ArrowDown':
      return row < last ? { row: row + 1, column } : null
    case 'Enter':
      if (row < last) return { row: row + 1, column }
      return column < size.columns - 1 ? { row: 0, column: column + 1 } : null
    case 'ArrowLeft':
      return caret.start === 0 && caret.end === 0 && column > -1 ? { row, column: column - 1 } : null
    case 'ArrowRight':
      return caret.start === caret.length && column < size.columns - 1 ? { row, column: column + 1 } : null
    default:
      return null
  }
}
