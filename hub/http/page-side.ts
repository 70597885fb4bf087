import type { IncomingMessage, ServerResponse } from 'node:http'
import type { OpenAPIHono } from '@hono/zod-openapi'
import type { Door } from '../access/door.ts'
import type { HubAddress } from '../contract/status.ts'
import type { SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import type { Timelines } from '../survey/timeline.ts'
import type { Desk, HubState } from './desk.ts'
import type { LiveStream } from './live-stream.ts'

export type HubApp = OpenAPIHono<{ Bindings: { incoming: IncomingMessage; outgoing: ServerResponse } }>

/** Everything the routes stand on. */
export interface PageSide {
  reader: SqliteReader
  desk: Desk
  stream: LiveStream
  timelines: () => Timelines
  state: () => HubState
  nowMs: () => number
  addresses: () => HubAddress[]
  door: Door
  access: {
    isOnNetwork: boolean
    /** HTTPS */
    isSecure: boolean
    /** names and addresses under which this hub is reached */
    hostNames: () => readonly string[]
  }
  facts: { version: string; isRehearsal: boolean; speed: number }
  /** the built web page */
  pageFolder: string
}

export function surveyNamed(side: PageSide, id: string): SurveyFile {
  const survey = side.timelines().surveys.find((candidate) => candidate.id === id)
  if (!survey) throw new HubError('E_SURVEY_UNKNOWN', `There is no survey "${id}" here.`)
  return survey
}

/** The same answer to everyone who asks within `ms`, while what it is `of` stays the same. */
export function keepFor<T>(ms: number, of: () => unknown, make: () => T): () => T {
  let kept: T | undefined
  let keptOf: unknown
  let until = 0
  return () => {
    const now = performance.now()
    if (kept === undefined || keptOf !== of() || now > until) {
      kept = make()
      keptOf = of()
      until = performance.now() + ms
    }
    return kept
  }
}
