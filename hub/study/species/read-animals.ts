import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import type { AnimalRecord, AnimalTable, SamplingEffort, SpeciesFault } from '../../contract/species.ts'
import { knownSamplingMethods } from '../../contract/trap.ts'
import { findHeadingRows, headingTexts } from './heading-rows.ts'
import { columnSaying, type HeadingWord } from './heading-words.ts'
import { COUNT_SAID, isCount, plainText, readNumber } from './read-value.ts'
import { cellAddress, type SheetGrid } from './sheet-grid.ts'
import { refuseSheet } from './sheet-refusal.ts'
import { taxonKey, tidyTaxon } from './taxon-name.ts'

/** The headings of the sheet for animals, to be printed and typed into. `set` and `checked` are times, 2026-06-12 18:00. */
export const animalHeadings = [
  'trap',
  'taxon',
  'count',
  'method',
  'set',
  'checked',
  'hours',
  'sweeps',
  'traps',
] as const

type Column = 'trap' | 'animal' | 'count' | 'method' | 'set' | 'checked' | 'hours' | 'sweeps' | 'traps'

/**
 * Animals typed in a sheet: trap (or station), taxon, count, method, and the effort: set and checked, or hours, or sweeps.
 * Trap, taxon and count are needed. “none” with count 0 is a trap that held nothing.
 * @returns a refusal E_SHEET_LAYOUT when one of the needed columns is missing
 */
export function readAnimals(grid: SheetGrid): AnimalTable | Refusal {
  const found = findColumns(grid)
  if (isRefusal(found)) return found
  const { columns, headingRow } = found
  const table: AnimalTable = { records: [], repairs: [], faults: [], notes: [] }
  const firstNames = new Map<string, string>()
  for (let row = headingRow + 1; row < grid.rows.length; row++) {
    const cells = grid.rows[row]!
    if (cells.every(({ kind }) => kind === 'blank')) continue
    const address = (column: Column) => cellAddress(row, columns.get(column) ?? 0)
    const text = (column: Column) => cells[columns.get(column) ?? -1]?.text.trim() ?? ''
    const faults: SpeciesFault[] = []
    const fault = (column: Column, message: string) =>
      faults.push({ cell: address(column), written: text(column), message })
    const typed = tidyTaxon(text('animal'))
    const taxon = firstNames.get(taxonKey(typed)) ?? typed
    firstNames.set(taxonKey(typed), taxon)
    if (taxon !== typed)
      table.repairs.push({
        cell: address('animal'),
        from: typed,
        to: taxon,
        why: 'another way of typing the same name',
      })
    const count = readNumber(text('count'))
    const isNothing = /^(?:|none|nothing|empty|-)$/.test(plainText(typed)) && (count ?? 0) === 0
    if (text('trap') === '') fault('trap', 'which trap, station or quadrat?')
    if (!isNothing && typed === '') fault('animal', 'which animal?')
    if (!isNothing && (count === null || !isCount(count))) fault('count', COUNT_SAID)
    const record: AnimalRecord = {
      taxon: isNothing ? null : taxon,
      count: isNothing ? 0 : (count ?? 0),
      method: methodName(text('method')),
      station: text('trap'),
      effort: readEffort(text, fault),
      cell: address('count'),
    }
    if (faults.length === 0) table.records.push(record)
    table.faults.push(...faults)
  }
  return table
}

function findColumns(grid: SheetGrid): { columns: Map<Column, number>; headingRow: number } | Refusal {
  const rows = findHeadingRows(grid)
  const { texts } = rows === null ? { texts: [] } : headingTexts(grid, rows)
  const columns = new Map<Column, number>()
  const words: HeadingWord[] = [
    'trap',
    'animal',
    'count',
    'method',
    'set',
    'checked',
    'hours',
    'sweeps',
    'traps',
  ]
  for (const word of words) {
    const column = columnSaying(texts, word, ...columns.values())
    if (column >= 0) columns.set(word as Column, column)
  }
  if (rows !== null && columns.has('trap') && columns.has('animal') && columns.has('count'))
    return { columns, headingRow: rows.headingRow }
  return refuseSheet(
    'E_SHEET_LAYOUT',
    `A sheet of animals needs the headings trap, taxon and count; this one has ${texts.filter((text) => text !== '').join(', ') || 'none'}. All that may be used: ${animalHeadings.join(', ')}.`,
  )
}

function methodName(typed: string): string {
  const known = knownSamplingMethods.find(({ name }) => name === plainText(typed).replace(/s$/, ''))
  return known?.name ?? (typed.slice(0, 60) || 'not said')
}

function readEffort(
  text: (column: Column) => string,
  fault: (column: Column, message: string) => void,
): SamplingEffort {
  const effort: SamplingEffort = {}
  const times = { set: readTime(text('set')), checked: readTime(text('checked')) }
  for (const column of ['set', 'checked'] as const)
    if (text(column) !== '' && times[column] === null) fault(column, 'write the time as 2026-06-12 18:00')
  if (times.set !== null) effort.setAt = times.set
  if (times.checked !== null) effort.checkedAt = times.checked
  for (const column of ['hours', 'sweeps', 'traps'] as const) {
    const number = readNumber(text(column))
    const isRight = number !== null && number > 0 && (column === 'hours' || Number.isInteger(number))
    if (isRight) effort[column] = number
    else if (text(column) !== '') fault(column, 'a number above 0')
  }
  if (times.set !== null && times.checked !== null) {
    const hours = (Date.parse(times.checked) - Date.parse(times.set)) / 3_600_000
    if (!(hours > 0)) fault('checked', 'checked before it was set')
    else if (effort.hours !== undefined && Math.abs(effort.hours - hours) > 0.1)
      fault('hours', `from set to checked is ${Number(hours.toFixed(2))} hours`)
    else effort.hours = hours
  }
  return effort
}

/** Of the place, without a zone, unless one is written. */
function readTime(text: string): string | null {
  const match = /^(\d{4}-\d{2}-\d{2})[ T](\d{2}:\d{2})(:\d{2})?(Z|[+-]\d{2}:\d{2})?$/.exec(text)
  if (!match) return null
  const time = `${match[1]}T${match[2]}${match[3] ?? ':00'}${match[4] ?? ''}`
  return Number.isNaN(Date.parse(time)) ? null : time
}
