import type { HubError } from '../errors.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'

/** The body of every refusal over HTTP. */
export function errorBody(error: HubError): {
  error: { code: string; message: string; faults?: { path: string; message: string }[] }
} {
  const faults = error instanceof SurveyRefused ? { faults: [...error.faults] } : {}
  return { error: { code: error.code, message: error.said, ...faults } }
}
