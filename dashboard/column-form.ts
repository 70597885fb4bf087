import type { Quarantined } from '../hub/contract/status.ts'
import type { ColumnMap } from '../hub/contract/survey.ts'
import { NAME_LENGTH, NAME_ON_THE_WIRE, TRAILER } from '../hub/contract/wire-names.ts'

/** One column of a printed line: a channel with its unit, or left aside. */
export interface ColumnEntry {
  isUsed: boolean
  channel: string
  unit: string
}

export interface ColumnForm {
  separator: ColumnMap['separator']
  decimal: ColumnMap['decimal']
  columns: ColumnEntry[]
}

const CUTS = { comma: ',', semicolon: ';', tab: '\t', space: /[ \t]+/ } as const
const LINES_AT_MOST = 5

/** How a line is most likely separated, and which sign its decimals have. */
export function guessColumns(line: string): Pick<ColumnForm, 'separator' | 'decimal'> {
  const text = line.trim()
  const hasDecimalComma = /\d,\d/.test(text)
  if (text.includes(';')) return { separator: 'semicolon', decimal: hasDecimalComma ? 'comma' : 'point' }
  if (text.includes('\t')) return { separator: 'tab', decimal: hasDecimalComma ? 'comma' : 'point' }
  // “23,1 880” is two numbers, “23, 1, 880” and “23,1,880” are three
  if (/ /.test(text) && !/, /.test(text))
    return { separator: 'space', decimal: hasDecimalComma ? 'comma' : 'point' }
  return { separator: text.includes(',') ? 'comma' : 'space', decimal: 'point' }
}

export function cellsOf(line: string, separator: ColumnForm['separator']): string[] {
  return line.trim().split(CUTS[separator])
}

/** The map a board has, or a first guess from a line of it. */
export function freshColumnForm(map: ColumnMap | undefined, line: string | undefined): ColumnForm {
  if (map)
    return {
      separator: map.separator,
      decimal: map.decimal,
      columns: map.channels.map((column) => ({
        isUsed: column !== null,
        channel: column?.channel ?? '',
        unit: column?.unit ?? '',
      })),
    }
  const guess = guessColumns(line ?? '')
  const count = line === undefined ? 1 : cellsOf(line, guess.separator).length
  return { ...guess, columns: withColumns([], count) }
}

/** As many columns as that; new ones are called as an unmapped line’s are. */
export function withColumns(columns: readonly ColumnEntry[], count: number): ColumnEntry[] {
  return Array.from(
    { length: count },
    (_, index) => columns[index] ?? { isUsed: true, channel: `c${index + 1}`, unit: '' },
  )
}

/** @returns the map, or what is wrong with a column, by its place */
export function readColumnForm({
  separator,
  decimal,
  columns,
}: ColumnForm): { map: ColumnMap } | { wrong: Map<number, string> } {
  const wrong = new Map<number, string>()
  const names = columns.map(({ isUsed, channel }) => (isUsed ? channel.trim() : null))
  for (const [index, name] of names.entries())
    if (name === null) continue
    else if (!NAME_ON_THE_WIRE.test(name) || name.length > NAME_LENGTH)
      wrong.set(index, 'a name such as ph or soilTemp, without spaces')
    else if (names.indexOf(name) < index) wrong.set(index, `“${name}” is there twice`)
  if (names.every((name) => name === null)) wrong.set(0, 'at least one column is to be read')
  if (wrong.size > 0) return { wrong }
  const channels = columns.map(({ isUsed, channel, unit }) =>
    isUsed ? { channel: channel.trim(), unit: unit.trim() } : null,
  )
  return { map: { separator, decimal, channels } }
}

/**
 * The last lines a board printed, newest first, as they came but for what ends them.
 * @param newest  bytes of its newest message that could be read; a SenML pack is no such line
 */
export function lastLines(
  board: { name: string; source: string | null },
  newest: string | null,
  quarantined: readonly Quarantined[],
): string[] {
  const unread = quarantined.filter(
    (row) =>
      (row.code === 'E_COLUMNS' || row.code === 'E_LINE_UNREADABLE') &&
      (row.board === board.name || (row.board === null && row.source === board.source)),
  )
  const lines = [newest ?? '', ...unread.map(({ shown }) => shown)].map(withoutEnd)
  return [...new Set(lines)].filter((line) => line !== '' && !/^[[{]/.test(line)).slice(0, LINES_AT_MOST)
}

/** A line feed is shown as a dot. */
function withoutEnd(shown: string): string {
  return shown
    .replace(/[·\s]+$/, '')
    .replace(TRAILER, '')
    .trim()
}
