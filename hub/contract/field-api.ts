import { createRoute, z } from '@hono/zod-openapi'
import { CheckTrap, SetTrap } from './changes.ts'
import { Completeness, Departure, Leave } from './field.ts'
import { body, done, json, refusals, surveyId } from './route-parts.ts'
import { TrapNow, TrapWatched, TrapWeather } from './trap.ts'

export const getCompleteness = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/completeness',
  summary: 'Quadrat × quantity: what is there, what is missing, and where the gaps are',
  request: { params: surveyId },
  responses: { 200: json(Completeness, 'One cell a quadrat and wanted quantity.'), ...refusals },
})

export const getLeave = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/leave',
  summary: 'May the class go? What is missing first, in the order of least walking',
  request: { params: surveyId, query: z.object({ at: z.string().optional() }) },
  responses: { 200: json(Leave, 'The decision, and what it rests on.'), ...refusals },
})

export const getDeparture = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/departure',
  summary: 'Before leaving the school: boards, clocks, probes, disk and plan, with a remedy for what fails',
  request: { params: surveyId },
  responses: { 200: json(Departure, 'One item a board, probe and other thing.'), ...refusals },
})

export const getWatchedTraps = createRoute({
  method: 'get',
  path: '/api/traps',
  summary: 'Open traps of all surveys, the most urgent first',
  responses: { 200: json(z.object({ traps: z.array(TrapWatched) }), 'Open traps.'), ...refusals },
})

export const getTraps = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/traps',
  summary: 'Traps of a survey with their clocks, and the weather by its own thermometers',
  request: { params: surveyId },
  responses: {
    200: json(z.object({ traps: z.array(TrapNow), weather: TrapWeather }), 'Also the closed ones.'),
    ...refusals,
  },
})

export const postTrap = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/traps',
  summary: 'A trap, refuge or funnel was set',
  request: { params: surveyId, ...body(SetTrap) },
  responses: { 200: json(z.object({ done: z.literal(true), id: z.string() }), 'Its id.'), ...refusals },
})

const trapId = surveyId.extend({ trap: z.string() })

export const postTrapCheck = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/traps/{trap}/check',
  summary: 'A trap was looked at and set again, or taken up',
  request: { params: trapId, ...body(CheckTrap) },
  responses: { 200: done, ...refusals },
})

export const postTrapUndo = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/traps/{trap}/undo',
  summary: 'Take the last step of a trap back: its last check, or its setting when it was never checked',
  request: { params: trapId },
  responses: {
    200: json(z.object({ done: z.literal(true), undone: z.string() }), 'What was taken back.'),
    ...refusals,
  },
})
