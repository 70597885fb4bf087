import type { ExportListed, ExportName } from '../contract/export-api.ts'
import { bundleExport } from './bundle/bundle-export.ts'
import { darwinCoreExport } from './darwin-core/darwin-core-export.ts'
import { parquetExport } from './parquet/parquet-export.ts'
import type { StudyExport } from './study-export.ts'
import { tablesExport } from './tables/tables-export.ts'
import { workbookExport } from './workbook/workbook-export.ts'

/** Every kind of file that can be made of a survey. */
export const studyExports: Readonly<Record<ExportName, StudyExport>> = {
  tables: tablesExport,
  'darwin-core': darwinCoreExport,
  parquet: parquetExport,
  workbook: workbookExport,
  bundle: bundleExport,
}

export function listExports(): ExportListed[] {
  return Object.values(studyExports).map(({ name, extension, summary }) => ({ name, extension, summary }))
}
