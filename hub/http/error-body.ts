import type { Context } from 'hono'
import type { HubError } from '../errors.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'

/** The body of every refusal over HTTP. */
export function errorBody(error: HubError): {
  error: { code: string; message: string; faults?: { path: string; message: string }[] }
} {
  const faults = error instanceof SurveyRefused ? { faults: [...error.faults] } : {}
  return { error: { code: error.code, message: error.said, ...faults } }
}

/** Answers a request with a refusal. */
// biome-ignore lint/suspicious/noExplicitAny: refusals answer every route, whatever its types
export function refuse(c: Context, error: HubError): any {
  return c.json(errorBody(error), error.status as 400)
}
