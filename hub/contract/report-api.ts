import { createRoute, z } from '@hono/zod-openapi'
import { refusals, surveyId } from './route-parts.ts'
import { summaryQuery } from './study-api.ts'

/** Lists of names in one parameter are set off by `|`, because commas are part of some. */
const names = z.string().max(10_000).optional()
const flag = z.enum(['yes', 'no'])

export const pictureFiles = [
  'transect-profile.svg',
  'scatter.svg',
  'scatter-matrix.svg',
  'box-plots.svg',
  'completeness.svg',
  'ordination.svg',
  'accumulation.svg',
] as const

export const pictureQuery = summaryQuery.extend({
  /** names with `|` between them; all factors, and the commonest species, when not given */
  factors: names,
  species: names,
  /** which tape; the one with the most quadrats when not given */
  transect: z.string().max(64).optional(),
  /** px */
  width: z.coerce.number().int().min(320).max(2400).default(800),
  /** `yes`: coefficients stay hidden */
  heldBack: flag.default('no'),
})

export const reportQuery = summaryQuery.extend({
  /** what the class wanted to find out; without it a line of the site’s notes that begins with “Aim:” */
  aim: z.string().trim().max(4000).optional(),
  /** `no`: coefficients, tests and verdicts are held back */
  verdicts: flag.default('yes'),
  coordinates: z.enum(['exact', 'blurred', 'none']).default('blurred'),
  /** `yes`: a last page with every text that people have typed, to be read before sharing */
  check: flag.default('no'),
  factors: names,
  species: names,
})

const file = (type: string, description: string) => ({
  description,
  content: { [type]: { schema: z.string() } },
})

export const getPicture = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/pictures/{picture}',
  summary: 'A picture of the study as SVG that stands by itself and can be read in black and white',
  request: { params: surveyId.extend({ picture: z.enum(pictureFiles) }), query: pictureQuery },
  responses: { 200: file('image/svg+xml', 'SVG.'), ...refusals },
})

export const getReportHtml = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/report.html',
  summary: 'The report of the survey as one printable page; the conclusion is left to the class',
  request: { params: surveyId, query: reportQuery },
  responses: { 200: file('text/html', 'HTML without scripts.'), ...refusals },
})

export const getReportPdf = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/report.pdf',
  summary: 'The same report as PDF',
  request: { params: surveyId, query: reportQuery },
  responses: { 200: file('application/pdf', 'PDF.'), ...refusals },
})
