import { createRoute, z } from '@hono/zod-openapi'
import { json, refusals, surveyId } from './route-parts.ts'

/** What can be written of a whole survey, each as one file. */
export const ExportName = z.enum(['tables', 'darwin-core', 'parquet', 'workbook', 'bundle'])
export type ExportName = z.infer<typeof ExportName>

/** Licences that a person may put on a file; the three that biodiversity portals take. */
export const Licence = z.enum(['CC0-1.0', 'CC-BY-4.0', 'CC-BY-NC-4.0'])
export type Licence = z.infer<typeof Licence>

/** How a file of a survey is to be made. */
export const studyExportQuery = z.object({
  /** the place of the site: as stored, rounded to 0.01° (within about a kilometre), or not at all */
  coordinates: z.enum(['exact', 'blurred', 'none']).default('blurred'),
  /** without it the file says that none has been given */
  licence: Licence.optional(),
  /** summaries of all the time, or only of that in which every standing probe was logging */
  window: z.enum(['all', 'common']).default('all'),
  /** pH as −log10 of the mean hydrogen-ion concentration as well */
  hydrogenIons: z.enum(['yes', 'no']).default('no'),
})
export type StudyExportQuery = z.infer<typeof studyExportQuery>

export const ExportListed = z.object({ name: ExportName, extension: z.string(), summary: z.string() })
export type ExportListed = z.infer<typeof ExportListed>

export const getExports = createRoute({
  method: 'get',
  path: '/api/exports',
  summary: 'The files that can be made of a survey, in words',
  responses: { 200: json(z.object({ exports: z.array(ExportListed) }), 'All of them.'), ...refusals },
})

export const getStudyExport = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/export/{name}',
  summary: 'A survey as one file: tables with their descriptions, Darwin Core, Parquet, a workbook, a bundle',
  request: { params: surveyId.extend({ name: ExportName }), query: studyExportQuery },
  responses: {
    200: { description: 'The file.', content: { 'application/octet-stream': { schema: z.string() } } },
    ...refusals,
  },
})
