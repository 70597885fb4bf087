import { createRoute } from '@hono/zod-openapi'
import { Pairing } from './pairing.ts'
import { json, refusals, surveyId } from './route-parts.ts'

export const getPairing = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/pairing',
  summary: 'Light beside the open sky, and wind beside the mast, paired in time',
  request: { params: surveyId },
  responses: { 200: json(Pairing, 'One entry a quadrat and probe.'), ...refusals },
})
