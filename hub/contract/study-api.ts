import { createRoute, z } from '@hono/zod-openapi'
import { Pairing } from './pairing.ts'
import { body, done, json, refusals, surveyId } from './route-parts.ts'
import { SpeciesAnswers } from './species.ts'
import { ExposedCatch, StudyJoin, StudySheet, StudyStatistics, StudySummary } from './study.ts'

const sheetId = surveyId.extend({ sheet: z.coerce.number().int().positive() })
const flag = z.enum(['yes', 'no']).default('no')

/** How the summaries are to be made; the same words in every route that rests on them. */
export const summaryQuery = z.object({
  /** `common`: only the time in which every standing probe was logging */
  window: z.enum(['all', 'common']).default('all'),
  /** pH as −log10 of the mean hydrogen-ion concentration as well */
  hydrogenIons: flag,
})

export const getPairing = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/pairing',
  summary: 'Light beside the open sky, and wind beside the mast, paired in time',
  request: { params: surveyId },
  responses: { 200: json(Pairing, 'One entry a quadrat and probe.'), ...refusals },
})

export const getSummary = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/summary',
  summary: 'Every quantity at every quadrat, from clean readings, with what to beware of',
  request: { params: surveyId, query: summaryQuery },
  responses: { 200: json(StudySummary, 'One entry a quadrat, quantity and way of measuring.'), ...refusals },
})

export const getSheets = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/sheets',
  summary: 'Sheets of species and animals as they were given, with how each is read; newest first',
  request: { params: surveyId },
  responses: { 200: json(z.object({ sheets: z.array(StudySheet) }), 'Sheets.'), ...refusals },
})

export const postSheet = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/sheets',
  summary: 'Keep a sheet (CSV, .xlsx, .ods) as it is: the body is its bytes. The newest of a kind is used',
  request: {
    params: surveyId,
    query: z.object({
      kind: z.enum(['species', 'animals']).default('species'),
      name: z.string().min(1).max(200),
      by: z.string().max(40).optional(),
    }),
  },
  responses: {
    200: json(z.object({ done: z.literal(true), sheet: StudySheet }), 'As it is read.'),
    ...refusals,
  },
})

export const putSheetAnswers = createRoute({
  method: 'put',
  path: '/api/surveys/{survey}/sheets/{sheet}/answers',
  summary: 'Answer what a sheet leaves open: do blanks mean absent, which quadrat is “Q1O” …',
  request: { params: sheetId, ...body(SpeciesAnswers) },
  responses: { 200: done, ...refusals },
})

export const postSheetRemoval = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/sheets/{sheet}/removal',
  summary: 'Leave a sheet out, or put it back; it stays on record',
  request: { params: sheetId, ...body(z.strictObject({ isRemoved: z.boolean() })) },
  responses: { 200: done, ...refusals },
})

export const getJoin = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/join',
  summary: 'Factors beside species: one row a quadrat, one a quadrat and taxon, and what did not match',
  request: { params: surveyId, query: summaryQuery },
  responses: { 200: json(StudyJoin, 'Three tables.'), ...refusals },
})

export const getStatistics = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/statistics',
  summary:
    'Every factor beside every species, corrected for how many tests that is; diversity, frequency, zones',
  request: {
    params: surveyId,
    query: summaryQuery.extend({
      /** redraws of each correlation within its uncertainties */
      redraws: z.coerce.number().int().min(0).max(2000).default(0),
      factors: z.string().optional(),
      taxa: z.string().optional(),
      /** `yes`: numbers and verdicts stay hidden until the class has said what it expects */
      heldBack: flag,
    }),
  },
  responses: { 200: json(StudyStatistics, 'Statistics.'), ...refusals },
})

export const getCatches = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/catches',
  summary: 'Animals caught, for each trap and hour, with what the probes read while the trap stood',
  request: { params: surveyId },
  responses: { 200: json(z.object({ catches: z.array(ExposedCatch) }), 'One entry a record.'), ...refusals },
})
