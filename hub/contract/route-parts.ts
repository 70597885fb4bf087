import { z } from '@hono/zod-openapi'
import { ErrorBody } from './status.ts'

/** Parts that the descriptions of all routes are made of. */
export const json = <T extends z.ZodType>(schema: T, description: string) => ({
  description,
  content: { 'application/json': { schema } },
})

export const refusals = {
  400: json(ErrorBody, 'The request cannot be read; the message names the field.'),
  401: json(ErrorBody, 'The class code is asked for.'),
  403: json(ErrorBody, 'Not from here.'),
  404: json(ErrorBody, 'There is no such thing.'),
  409: json(ErrorBody, 'Not in the present state.'),
  422: json(ErrorBody, 'Understood, but wrong; nothing was changed.'),
  429: json(ErrorBody, 'Too often.'),
  500: json(ErrorBody, 'The hub failed.'),
  503: json(ErrorBody, 'Not reachable at the moment.'),
  507: json(ErrorBody, 'The disk is full.'),
}

export const body = <T extends z.ZodType>(schema: T) => ({
  body: { required: true, content: { 'application/json': { schema } } },
})

export const done = json(z.object({ done: z.literal(true) }), 'Done.')

export const surveyId = z.object({ survey: z.string() })
