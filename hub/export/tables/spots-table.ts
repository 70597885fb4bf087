import type { SpotValue } from '../../contract/spot.ts'
import { csvLines } from '../csv-line.ts'
import { type Column, DARWIN_CORE, type DataTable } from './data-table.ts'

const COLUMNS: readonly Column[] = [
  { name: 'spot', type: 'string', title: 'Spot reading', description: 'Its id.' },
  { name: 'replicate', type: 'integer', title: 'Replicate', description: 'Which insertion, from 1.' },
  { name: 'quadrat', type: 'string', title: 'Quadrat', description: 'Where it counts now.' },
  { name: 'probe', type: 'string', title: 'Probe', description: 'The carried meter.' },
  { name: 'quantity', type: 'string', title: 'Quantity', description: 'What was measured.' },
  { name: 'from', type: 'datetime', title: 'From', description: 'When the meter was held, UTC.' },
  { name: 'to', type: 'datetime', title: 'To', description: 'Until when.' },
  {
    name: 'value',
    type: 'number',
    title: 'Value',
    description: 'Mean of its readings.',
    propertyUrl: `${DARWIN_CORE}measurementValue`,
  },
  { name: 'unit', type: 'string', title: 'Unit', description: 'As SenML writes it.' },
  {
    name: 'uncertainty',
    type: 'number',
    title: 'Standard uncertainty',
    description: 'k = 1, of probe and calibration.',
  },
  { name: 'readings', type: 'integer', title: 'Readings', description: 'How many it is made of.' },
  { name: 'is_steady', type: 'boolean', title: 'Steady', description: 'The signal had settled.' },
  { name: 'is_typed', type: 'boolean', title: 'Typed', description: 'Read off a meter and typed in.' },
  { name: 'left_out', type: 'string', title: 'Left out', description: 'Why it is not clean. Empty: it is.' },
  { name: 'by', type: 'string', title: 'By', description: 'The group’s label.' },
  { name: 'received', type: 'datetime', title: 'Received', description: 'When it came to the hub, UTC.' },
  {
    name: 'amendments',
    type: 'string',
    title: 'Amendments',
    description: 'What was changed afterwards, and why.',
  },
]

/** Readings of carried and typed-in meters, one row an insertion. */
export function spotsTable(spots: readonly SpotValue[]): DataTable {
  return {
    name: 'spots',
    title: 'Spot readings, one row an insertion',
    description: 'Of meters that are carried from quadrat to quadrat.',
    columns: COLUMNS,
    primaryKey: ['spot', 'replicate'],
    lines: csvLines(
      COLUMNS.map(({ name }) => name),
      spots.flatMap(({ spot, quantity, unit, replicates }) =>
        replicates.map((each, index) => [
          ...[spot.id, index + 1, spot.quadrat, spot.probe, quantity, each.from, each.to],
          ...[each.value, unit, each.uncertainty, each.readings, each.isSteady, spot.isTyped],
          ...[each.leftOut, spot.by, spot.receivedAt, amendmentsOf(spot)],
        ]),
      ),
    ),
  }
}

function amendmentsOf({ amendments }: SpotValue['spot']): string {
  return amendments
    .map(({ at, quadrat, isTakenBack, reason }) => {
      const what =
        isTakenBack === undefined ? `moved to ${quadrat}` : isTakenBack ? 'taken back' : 'counts again'
      return `${at} ${what}: ${reason}`
    })
    .join('; ')
}
