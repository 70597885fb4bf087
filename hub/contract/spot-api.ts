import { createRoute, z } from '@hono/zod-openapi'
import { body, done, json, refusals, surveyId } from './route-parts.ts'
import { AddSpot, AmendSpot, SpotValue } from './spot.ts'

export const getSpots = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/spots',
  summary: 'Spot readings of a survey with their values, newest first',
  request: {
    params: surveyId,
    query: z.object({ quadrat: z.string().optional(), probe: z.string().optional() }),
  },
  responses: { 200: json(z.object({ spots: z.array(SpotValue) }), 'Spot readings.'), ...refusals },
})

export const postSpot = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/spots',
  summary: 'Keep a spot reading of a carried or typed-in meter; sent again it is kept once',
  request: { params: surveyId, ...body(AddSpot) },
  responses: {
    200: json(z.object({ done: z.literal(true), isNew: z.boolean(), spot: SpotValue }), 'As it is kept.'),
    ...refusals,
  },
})

export const postSpotAmendment = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/spots/{spot}/amend',
  summary:
    'Say that a spot reading was at another quadrat, or does not count (or counts again); the record stays',
  request: { params: surveyId.extend({ spot: z.string() }), ...body(AmendSpot) },
  responses: { 200: done, ...refusals },
})
