import { writeXlsx } from 'hucre/xlsx'
import { countClean } from '../clean-count.ts'
import { type ExportSource, summaryWish } from '../study-export.ts'
import { CALIBRATION_HEADINGS, calibrationRows } from '../tables/calibrations-table.ts'
import { SPECIES_HEADINGS, speciesRows } from '../tables/species-table.ts'
import { SUMMARY_COLUMNS, summaryRows } from '../tables/summary-table.ts'
import { workbookNotes } from './workbook-notes.ts'
import { READINGS_HEADINGS, readingsOfSheet } from './workbook-readings.ts'
import { tableSheet, textSheet } from './workbook-sheet.ts'

/** A workbook (.xlsx) for the class. Its readings are limited, so that it opens on any computer. */
export async function* workbookPieces(source: ExportSource): AsyncGenerator<Uint8Array> {
  const { study, store, timelines, survey, version, madeAtMs } = source
  const wish = summaryWish(source.wish)
  const summary = study.summary(wish)
  const species = await study.species()
  const { clean, leftOut } = countClean(store, timelines, survey.id)
  const { rows, stepMs } = readingsOfSheet(source, clean)
  const joined = species ? await study.join(wish) : null
  yield await writeXlsx({
    sheets: [
      textSheet('Read me', workbookNotes(source, summary, species !== null, stepMs)),
      tableSheet(
        'Summary',
        SUMMARY_COLUMNS.map(({ title }) => title),
        summaryRows(summary),
      ),
      ...(joined ? [tableSheet('Joined', joined.wide.headings, joined.wide.rows)] : []),
      ...(species ? [tableSheet('Species', SPECIES_HEADINGS, speciesRows(species.table))] : []),
      tableSheet('Readings', READINGS_HEADINGS, rows),
      tableSheet(
        'Left out',
        ['reason', 'readings'],
        leftOut.map(({ reason, n }) => [reason, n]),
      ),
      tableSheet('Calibrations', CALIBRATION_HEADINGS, calibrationRows(survey)),
    ],
    properties: { title: survey.title, creator: `Tussock ${version}`, created: new Date(madeAtMs) },
  })
}
