import type { ExportListed, ExportName } from '../contract/export-api.ts'
import type { StudyExport } from './study-export.ts'

/** Every kind of file that can be made of a survey. */
export const studyExports: Readonly<Record<ExportName, StudyExport>> = {
  tables: {
    name: 'tables',
    summary: 'every table as CSV, with a Data Package and a CSVW description (zip)',
    extension: 'zip',
    mediaType: 'application/zip',
    isSealedOnly: false,
    load: async () => (await import('./tables/tables-export.ts')).tablesPieces,
  },
  'darwin-core': {
    name: 'darwin-core',
    summary: 'a Darwin Core archive, for biodiversity portals (zip)',
    extension: 'zip',
    mediaType: 'application/zip',
    isSealedOnly: false,
    load: async () => (await import('./darwin-core/darwin-core-export.ts')).darwinCorePieces,
  },
  parquet: {
    name: 'parquet',
    summary: 'clean readings as Apache Parquet, for statistics programs',
    extension: 'parquet',
    mediaType: 'application/vnd.apache.parquet',
    isSealedOnly: false,
    load: async () => (await import('./parquet/parquet-export.ts')).parquetPieces,
  },
  workbook: {
    name: 'workbook',
    summary: 'a workbook with summaries, species, readings and calibrations, for a spreadsheet',
    extension: 'xlsx',
    mediaType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    isSealedOnly: false,
    load: async () => (await import('./workbook/workbook-export.ts')).workbookPieces,
  },
  bundle: {
    name: 'bundle',
    summary: 'everything to work all numbers out again: tussock verify compares them (zip)',
    extension: 'zip',
    mediaType: 'application/zip',
    isSealedOnly: true,
    load: async () => (await import('./bundle/bundle-export.ts')).bundlePieces,
  },
}

export function listExports(): ExportListed[] {
  return Object.values(studyExports).map(({ name, extension, summary }) => ({ name, extension, summary }))
}
