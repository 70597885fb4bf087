import { type ColumnRefusal, type ColumnSignal, cannotRead, readNumber } from '../contract/read-columns.ts'

export { type ColumnRefusal, type ColumnSignal, readColumns } from '../contract/read-columns.ts'

/**
 * Reads a line nobody has described yet: numbers with decimal points and one kind of separator become `c1`, `c2` …
 * Anything that could be read in two ways is left to a column map.
 */
export function readUnmappedColumns(line: string): ColumnSignal[] | ColumnRefusal {
  const text = line.trim()
  const separator = text.includes(';') ? ';' : text.includes('\t') ? '\t' : text.includes(',') ? ',' : / +/
  const values = text.split(separator).map((cell) => readNumber(cell, 'point'))
  if (values.some((value) => value === undefined))
    return cannotRead('not SenML, and not only numbers with one separator')
  return values.map((value, index) => ({ channel: `c${index + 1}`, unit: '', value: value! }))
}
