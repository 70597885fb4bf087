import type { ExportName, StudyExportQuery } from '../contract/export-api.ts'
import type { SurveyFile } from '../contract/survey.ts'
import type { Study } from '../study/study.ts'
import type { SummaryWish } from '../study/summary/summarise.ts'
import type { Timelines } from '../survey/timeline.ts'
import type { StoreSnapshot } from './store-snapshot.ts'

/** Everything that a file is made of. */
export interface ExportSource {
  store: StoreSnapshot
  timelines: Timelines
  study: Study
  survey: SurveyFile
  wish: StudyExportQuery
  version: string
  madeAtMs: number
}

/** A file, piece by piece, at the reader’s pace. */
export type ExportPieces = (source: ExportSource) => AsyncGenerator<Uint8Array>

/** One kind of file of a survey. */
export interface StudyExport {
  name: ExportName
  /** what it is for, in a sentence */
  summary: string
  extension: string
  mediaType: string
  /** only what every quality test has seen, so that it can be worked out again to the same values */
  isSealedOnly: boolean
  /** what makes it; read from the disk only when somebody wants such a file, because it takes memory */
  load(): Promise<ExportPieces>
}

export function summaryWish({ window, hydrogenIons }: StudyExportQuery): SummaryWish {
  return { window, withHydrogenIons: hydrogenIons === 'yes' }
}
