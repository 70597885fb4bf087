import type { StudyJoin, StudyTable } from '../../contract/study.ts'
import { csvLines } from '../csv-line.ts'
import { type Column, DARWIN_CORE, type DataTable } from './data-table.ts'

/** Factors beside species: a row a quadrat, a row a quadrat and taxon, and what had no partner. */
export function joinedTables({ wide, long, unmatched }: StudyJoin): DataTable[] {
  return [
    {
      name: 'joined',
      title: 'Factors beside species, one row a quadrat',
      description: 'A blank is not recorded; 0 is looked for and absent.',
      primaryKey: ['quadrat'],
      ...asTable(wide),
    },
    {
      name: 'joined-long',
      title: 'Factors beside species, one row a quadrat and taxon',
      description: 'A blank is not recorded; 0 is looked for and absent.',
      primaryKey: ['quadrat', 'taxon'],
      ...asTable(long),
    },
    {
      name: 'unmatched',
      title: 'What did not join, and why',
      description: 'Labels of either side that have no partner, and cells that cannot be used.',
      ...asTable(unmatched),
    },
  ]
}

function asTable({ headings, rows }: StudyTable): Pick<DataTable, 'columns' | 'lines'> {
  const columns = headings.map((name, place): Column => {
    const cells = rows.map((row) => row[place] ?? null).filter((cell) => cell !== null)
    const isNumber = cells.length > 0 && cells.every((cell) => typeof cell === 'number')
    return { name, type: isNumber ? 'number' : 'string', ...meaningOf(name, isNumber) }
  })
  return { columns, lines: csvLines(headings, rows) }
}

const FIXED: Readonly<Record<string, Omit<Column, 'name' | 'type'>>> = {
  quadrat: { title: 'Quadrat', description: 'Its label in the survey.' },
  taxon: {
    title: 'Taxon',
    description: 'As the class wrote it.',
    propertyUrl: `${DARWIN_CORE}scientificName`,
  },
  measure: { title: 'Measure', description: 'How the plants were measured.' },
  value: {
    title: 'Value',
    description: 'In the unit beside it.',
    propertyUrl: `${DARWIN_CORE}organismQuantity`,
  },
  unit: { title: 'Unit', description: 'Empty for counts and presence.' },
  present: { title: 'Present', description: '1 or 0.' },
  as_written: { title: 'As written', description: 'What stood in the cell, unchanged.' },
  cell: { title: 'Cell', description: 'Where it stood in the sheet.' },
  species_measure: { title: 'Measure of the species', description: 'How the plants were measured.' },
  blanks_mean: { title: 'Blanks mean', description: 'What a blank in the sheet was taken for.' },
  side: { title: 'Side', description: 'readings or species.' },
  label: { title: 'Label', description: 'As it stands on that side.' },
  reason: { title: 'Reason', description: 'Why it has no partner.' },
  suggestion: { title: 'Suggestion', description: 'The quadrat it may be.' },
}

function meaningOf(name: string, isNumber: boolean): Omit<Column, 'name' | 'type'> {
  const fixed = FIXED[name]
  if (fixed) return fixed
  const [, factor, part] = /^([a-z][\p{L}\p{N}_]*)_(median|mean|n|u)$/u.exec(name) ?? []
  if (factor === undefined || part === undefined)
    return isNumber || !/_/.test(name)
      ? {
          title: name,
          description: 'A taxon as the class wrote it: its value in the measure of the species.',
        }
      : { title: name, description: 'As joined.' }
  const words = factor.replaceAll('_', ' ')
  if (part === 'n') return { title: `${words}, n`, description: 'How many values the factor rests on.' }
  if (part === 'u') return { title: `${words}, u`, description: 'Its standard uncertainty (k = 1).' }
  return {
    title: `${words}, ${part}`,
    description: `The ${part} at the quadrat; its unit is in summary.csv.`,
  }
}
