import { spotValues } from '../../survey/spot-values.ts'
import { ArchiveLedger } from '../archive/archive-ledger.ts'
import { zipStream } from '../archive/zip-stream.ts'
import { exportNote } from '../export-note.ts'
import { type ExportSource, summaryWish } from '../study-export.ts'
import { calibrationsTable } from './calibrations-table.ts'
import { csvwTableGroup } from './csvw.ts'
import { dataPackage } from './data-package.ts'
import type { DataTable } from './data-table.ts'
import { decisionsTable } from './decisions-table.ts'
import { joinedTables } from './joined-tables.ts'
import { readingsTables } from './readings-tables.ts'
import { speciesTable } from './species-table.ts'
import { spotsTable } from './spots-table.ts'
import { summaryTable } from './summary-table.ts'

/** Every table of a study as CSV, described twice: as a Data Package and as CSV on the Web. */
export async function* tablesPieces(source: ExportSource): AsyncGenerator<Uint8Array> {
  const { tables, leftOut } = await tablesOf(source)
  yield* zipStream(filesOf(source, tables, leftOut), source.madeAtMs)
}

async function tablesOf(source: ExportSource): Promise<{ tables: DataTable[]; leftOut: string[] }> {
  const { study, store, timelines, survey, wish } = source
  const species = await study.species()
  const joined = species && (await study.join(summaryWish(wish)))
  return {
    tables: [
      ...readingsTables(source),
      summaryTable(study.summary(summaryWish(wish))),
      ...(joined ? [...joinedTables(joined), speciesTable(species.table)] : []),
      spotsTable(spotValues(store, timelines, survey.id)),
      decisionsTable(survey),
      calibrationsTable(survey),
    ],
    leftOut: joined
      ? joined.explanation
      : [
          'There is no table of species yet: joined.csv, joined-long.csv, unmatched.csv and species.csv are not here.',
        ],
  }
}

function* filesOf(source: ExportSource, tables: readonly DataTable[], leftOut: readonly string[]) {
  const ledger = new ArchiveLedger()
  for (const { name, lines } of tables) yield ledger.file(`${name}.csv`, lines)
  const described = JSON.stringify(
    dataPackage(source, tables, (path) => ledger.lineOf(path)),
    null,
    2,
  )
  yield ledger.file('datapackage.json', [`${described}\n`])
  yield ledger.file('csvw-metadata.json', [`${JSON.stringify(csvwTableGroup(source, tables), null, 2)}\n`])
  const files = [
    ...tables.map(({ name, title }) => ({ path: `${name}.csv`, text: title })),
    { path: 'datapackage.json', text: 'describes the tables (Data Package 2.0)' },
    { path: 'csvw-metadata.json', text: 'describes them again (W3C CSV on the Web)' },
  ]
  yield ledger.file('README.txt', [exportNote(source, 'tables', files, leftOut)])
}
