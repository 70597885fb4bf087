import { ArchiveLedger } from '../archive/archive-ledger.ts'
import { zipStream } from '../archive/zip-stream.ts'
import { type CsvCell, csvLines } from '../csv-line.ts'
import { exportNote } from '../export-note.ts'
import { type ExportSource, summaryWish } from '../study-export.ts'
import { archiveFaults } from './archive-faults.ts'
import { archiveRows } from './archive-rows.ts'
import {
  type ArchiveTable,
  EVENT_TABLE,
  type EventRow,
  MEASUREMENT_TABLE,
  OCCURRENCE_TABLE,
} from './archive-terms.ts'
import { emlXml } from './eml-xml.ts'
import { metaXml } from './meta-xml.ts'

/**
 * A Darwin Core archive with events as its core: the survey, and below it each quadrat on each date.
 * @see https://dwc.tdwg.org/text/
 */
export async function* darwinCorePieces(source: ExportSource): AsyncGenerator<Uint8Array> {
  yield* zipStream(filesOf(source), source.madeAtMs)
}

async function* filesOf(source: ExportSource) {
  const summary = source.study.summary(summaryWish(source.wish))
  const rows = await archiveRows(source, summary)
  const faults = archiveFaults(rows)
  if (faults.length > 0) throw new Error(`the archive would not hold together: ${faults.join('; ')}`)
  const { events, occurrences, measurements, leftOut } = rows
  const ledger = new ArchiveLedger()
  const table = ({ path, columns }: ArchiveTable, list: readonly object[]) =>
    ledger.file(
      path,
      csvLines(
        columns,
        list.map((row) => columns.map((term) => plain(row, term))),
      ),
    )
  yield table(EVENT_TABLE, events)
  yield table(OCCURRENCE_TABLE, occurrences)
  yield table(MEASUREMENT_TABLE, measurements)
  yield ledger.file('meta.xml', [metaXml()])
  const days = String((events[0] as EventRow).eventDate)
  yield ledger.file('eml.xml', [emlXml(source, summary, days)])
  const files = [
    { path: EVENT_TABLE.path, text: `${events.length} events: the survey, and each quadrat on each date` },
    { path: OCCURRENCE_TABLE.path, text: `${occurrences.length} plants and animals, absent ones too` },
    { path: MEASUREMENT_TABLE.path, text: `${measurements.length} abiotic factors and ground covers` },
    { path: 'meta.xml', text: 'what each column is' },
    { path: 'eml.xml', text: 'what the data set is' },
  ]
  yield ledger.file('README.txt', [exportNote(source, 'a Darwin Core archive', files, leftOut)])
}

/** Text in one line and without mark-up, as portals ask. */
function plain(row: object, term: string): CsvCell {
  const content = (row as Record<string, CsvCell>)[term]
  return typeof content === 'string'
    ? content
        .replace(/<[^>]*>/g, '')
        .replace(/\s+/g, ' ')
        .trim()
    : content
}
