import type { AnimalRecord } from '../../../hub/contract/species.ts'
import { readNumber } from '../../read-number.ts'
import { csvLine } from '../species/csv-line.ts'

/** One animal in one catch, as it is typed. Empty: not said. */
export interface AnimalRow {
  trap: string
  taxon: string
  count: string
  method: string
  /** local times of the site, 2026-06-12T18:00 */
  set: string
  checked: string
  hours: string
  sweeps: string
  traps: string
}

/** The headings the hub’s reader of animals looks for. */
const headings = ['trap', 'taxon', 'count', 'method', 'set', 'checked', 'hours', 'sweeps', 'traps'] as const

export const blankAnimal: AnimalRow = {
  trap: '',
  taxon: '',
  count: '',
  method: '',
  set: '',
  checked: '',
  hours: '',
  sweeps: '',
  traps: '',
}

/** The next row of the same catch: trap, method and effort stay, animal and count are asked anew. */
export function nextOfCatch(row: AnimalRow): AnimalRow {
  return { ...row, taxon: '', count: '' }
}

/** What is missing or wrong in a row, in words; null when it may be kept. */
export function animalTrouble(row: AnimalRow): string | null {
  if (row.trap.trim() === '') return 'Which trap, station or quadrat?'
  if (row.taxon.trim() === '') return 'Which animal? Write “none” with 0 for a trap that held nothing.'
  const count = readNumber(row.count)
  if (count === null || !Number.isInteger(count) || count < 0) return 'The count is a whole number from 0.'
  if (row.set !== '' && row.checked !== '' && row.checked <= row.set)
    return 'It was looked at before it was set: one of the two times is wrong.'
  return null
}

/** The rows as the sheet that the hub reads. From set to checked gives the hours, so that hours are not written beside. */
export function animalsAsCsv(rows: readonly AnimalRow[]): string {
  return [
    csvLine(headings),
    ...rows.map((row) => {
      const isTimed = row.set !== '' && row.checked !== ''
      return csvLine(headings.map((heading) => (heading === 'hours' && isTimed ? '' : row[heading].trim())))
    }),
  ].join('')
}

/** Records of an earlier sheet as rows, to be gone on with. */
export function rowsOfRecords(records: readonly AnimalRecord[]): AnimalRow[] {
  return records.map(({ station, taxon, count, method, effort }) => {
    const isTimed = effort.setAt !== undefined && effort.checkedAt !== undefined
    return {
      trap: station,
      taxon: taxon ?? 'none',
      count: String(count),
      method: method === 'not said' ? '' : method,
      set: effort.setAt ?? '',
      checked: effort.checkedAt ?? '',
      hours: effort.hours === undefined || isTimed ? '' : String(effort.hours),
      sweeps: effort.sweeps === undefined ? '' : String(effort.sweeps),
      traps: effort.traps === undefined ? '' : String(effort.traps),
    }
  })
}
