import type { ServerResponse } from 'node:http'
import type { OpenAPIHono } from '@hono/zod-openapi'
import type { SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import type { Timelines } from '../survey/timeline.ts'
import type { Desk, HubState } from './desk.ts'
import type { LiveStream } from './live-stream.ts'

export type HubApp = OpenAPIHono<{ Bindings: { outgoing: ServerResponse } }>

/** Everything the routes stand on. */
export interface PageSide {
  reader: SqliteReader
  desk: Desk
  stream: LiveStream
  timelines: () => Timelines
  state: () => HubState
  nowMs: () => number
  facts: { version: string; isRehearsal: boolean; speed: number }
  /** the built web page */
  pageFolder: string
}

export function surveyNamed(side: PageSide, id: string): SurveyFile {
  const survey = side.timelines().surveys.find((candidate) => candidate.id === id)
  if (!survey) throw new HubError('E_SURVEY_UNKNOWN', `There is no survey "${id}" here.`)
  return survey
}
