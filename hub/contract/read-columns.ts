import type { ColumnMap } from './survey.ts'

/** One signal of a line of separated numbers. */
export interface ColumnSignal {
  channel: string
  unit: string
  value: number
}

export interface ColumnRefusal {
  refused: true
  message: string
}

const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t', space: /[ \t]+/ } as const
const NUMBER_WITH_POINT = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d{1,3})?$/
const NUMBER_WITH_COMMA = /^[+-]?(\d+(,\d*)?|,\d+)([eE][+-]?\d{1,3})?$/

/**
 * Reads a line such as `512;23,1;880` by the column map of its board.
 * @returns the mapped signals in column order; or which column cannot be read
 */
export function readColumns(line: string, map: ColumnMap): ColumnSignal[] | ColumnRefusal {
  const cells = line.trim().split(SEPARATORS[map.separator])
  if (cells.length !== map.channels.length)
    return cannotRead(
      `${cells.length} columns, the map expects ${map.channels.length} (${map.channels
        .map((column) => column?.channel ?? 'left aside')
        .join(', ')})`,
    )
  const signals: ColumnSignal[] = []
  for (const [index, column] of map.channels.entries()) {
    if (column === null) continue
    const value = readNumber(cells[index]!, map.decimal)
    if (value === undefined)
      return cannotRead(
        `column ${index + 1} (${column.channel}) is "${cells[index]!.slice(0, 40)}", not a number with decimal ${map.decimal}`,
      )
    signals.push({ channel: column.channel, unit: column.unit, value })
  }
  return signals
}

/** @returns undefined when it is no number in that way of writing */
export function readNumber(cell: string, decimal: 'point' | 'comma'): number | undefined {
  const text = cell.trim()
  if (!(decimal === 'comma' ? NUMBER_WITH_COMMA : NUMBER_WITH_POINT).test(text)) return undefined
  const value = Number(text.replace(',', '.'))
  return Number.isFinite(value) ? value : undefined
}

/** @param message  why the line cannot be read, without a full stop */
export function cannotRead(message: string): ColumnRefusal {
  return { refused: true, message }
}
