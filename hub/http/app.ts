import { readFile } from 'node:fs/promises'
import type { ServerResponse } from 'node:http'
import { extname, join, normalize } from 'node:path'
import { setImmediate as nextTurn } from 'node:timers/promises'
import { RESPONSE_ALREADY_SENT } from '@hono/node-server/utils/response'
import { OpenAPIHono } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { rfc3339 } from '../clock.ts'
import * as api from '../contract/api.ts'
import type { HubNow } from '../contract/status.ts'
import { errorCatalogue, HubError, isErrorCode, messageOf } from '../errors.ts'
import { countClean } from '../export/clean-count.ts'
import { readingsCsv } from '../export/readings-csv.ts'
import { listPorts } from '../sources/list-ports.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import { addCalibration, withdrawCalibration } from '../survey/change-survey.ts'
import { previewChange } from '../survey/preview-change.ts'
import { pathText, readSurveyFile } from '../survey/read-survey-file.ts'
import { readinessOf } from '../survey/readiness.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'
import type { Timelines } from '../survey/timeline.ts'
import { marksWithin, nightsWithin } from './chart-marks.ts'
import type { Desk, HubState } from './desk.ts'
import { boardsNow, channelsNow } from './directory.ts'
import { errorBody } from './error-body.ts'
import { explainReading, showBytes } from './explain.ts'
import type { LiveStream } from './live-stream.ts'
import { quadratSeries } from './quadrat-series.ts'
import { qualityTestsListed } from './quality-list.ts'

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

/** Only these reach a page: everything it needs comes from the hub itself. */
const SECURITY_HEADERS = {
  'content-security-policy':
    "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'",
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
}

const BODY_BYTES_AT_MOST = 10_000_000
const DIRECTORY_KEPT_MS = 100

export function makeApp(side: PageSide): OpenAPIHono<{ Bindings: { outgoing: ServerResponse } }> {
  const app = new OpenAPIHono<{ Bindings: { outgoing: ServerResponse } }>({
    defaultHook: (result, c) => {
      if (result.success) return undefined
      const code = result.target === 'json' ? 'E_BODY' : 'E_QUERY'
      const faults = result.error.issues.map((issue) => `${pathText(issue.path) || 'body'}: ${issue.message}`)
      return refuse(c, new HubError(code, `${faults.join('; ')}.`))
    },
  })

  app.use(async (c, next) => {
    for (const [name, value] of Object.entries(SECURITY_HEADERS)) c.header(name, value)
    if (c.req.method !== 'GET' && c.req.method !== 'HEAD') {
      const origin = c.req.header('origin')
      if (origin !== undefined && hostOf(origin) !== c.req.header('host'))
        throw new HubError('E_ELSEWHERE', `A page from ${origin} tried to change something here.`)
      if (Number(c.req.header('content-length') ?? 0) > BODY_BYTES_AT_MOST)
        throw new HubError('E_BODY', `A body of more than ${BODY_BYTES_AT_MOST / 1e6} MB.`)
    }
    await next()
  })
  app.onError((error, c) => {
    if (error instanceof HubError) return refuse(c, error)
    if (/JSON/i.test(messageOf(error))) return refuse(c, new HubError('E_BODY', `${messageOf(error)}.`))
    console.error(error)
    return c.json({ error: { code: 'E_HUB', message: `The hub failed: ${messageOf(error)}` } }, 500)
  })

  app.openapi(api.getHub, (c) => c.json(hubNow(side), 200))

  // thirty phones ask within the same moment: they are given the same answer
  const directory = keepFor(DIRECTORY_KEPT_MS, side.timelines, () => {
    const channels = channelsNow(side.reader, side.timelines(), side.nowMs())
    const boards = boardsNow(side.reader, side.timelines(), channels, side.state())
    return { boards, ports: side.state().ports, channels }
  })
  app.openapi(api.getDirectory, (c) => c.json(directory(), 200))

  const surveyNamed = (id: string) => {
    const survey = side.timelines().surveys.find((candidate) => candidate.id === id)
    if (!survey) throw new HubError('E_SURVEY_UNKNOWN', `There is no survey "${id}" here.`)
    return survey
  }
  app.openapi(api.getSurvey, (c) => c.json(surveyNamed(c.req.valid('param').survey), 200))

  app.openapi(api.putSurvey, async (c) => {
    const { survey, faults } = readSurveyFile(c.req.valid('json'))
    if (survey === null) throw new SurveyRefused(faults)
    const { survey: id } = c.req.valid('param')
    if (survey.id !== id)
      throw new SurveyRefused([
        { path: 'id', message: `the file is of "${survey.id}", the address says "${id}"` },
      ])
    await side.desk.saveSurvey(survey, 'saved on the page')
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postPlacement, async (c) => {
    await side.desk.placeProbe(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postCalibration, async (c) => {
    await side.desk.addCalibration(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postWithdrawal, async (c) => {
    const { survey, calibration } = c.req.valid('param')
    await side.desk.withdrawCalibration(survey, calibration, c.req.valid('json').reason)
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postPreview, async (c) => {
    const { survey: id } = c.req.valid('param')
    const { add, withdraw } = c.req.valid('json')
    const added = add ? addCalibration(surveyNamed(id), add) : surveyNamed(id)
    const changed =
      withdraw === undefined ? added : withdrawCalibration(added, withdraw, 'tried out', side.nowMs())
    const { survey, faults } = readSurveyFile(changed)
    if (survey === null) throw new SurveyRefused(faults)
    return c.json({ moves: await previewChange(side.reader, side.timelines(), survey) }, 200)
  })

  app.openapi(api.getReadiness, (c) => {
    const survey = surveyNamed(c.req.valid('param').survey)
    return c.json({ probes: readinessOf(survey, side.nowMs()) }, 200)
  })

  app.openapi(api.postCheck, async (c) => {
    await side.desk.addCheck(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postDrift, async (c) => {
    await side.desk.setDrift(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.getClean, (c) => {
    const { id } = surveyNamed(c.req.valid('param').survey)
    return c.json(countClean(side.reader, side.timelines(), id), 200)
  })

  app.openapi(api.postDecision, async (c) => {
    const id = await side.desk.addDecision(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true, id } as const, 200)
  })

  app.openapi(api.postTakeBack, async (c) => {
    const { survey, decision } = c.req.valid('param')
    await side.desk.takeBackDecision(survey, decision, c.req.valid('json').by)
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.getQualityTests, (c) => c.json({ tests: qualityTestsListed() }, 200))

  app.openapi(api.putQuality, async (c) => {
    await side.desk.setQuality(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postProbeWithdrawal, async (c) => {
    const { survey, probe } = c.req.valid('param')
    await side.desk.withdrawProbe(survey, probe, c.req.valid('json').reason)
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postPut, async (c) => c.json({ text: await side.desk.putProbe(c.req.valid('json')) }, 200))

  app.openapi(api.postUndo, async (c) => {
    const undone = await side.desk.undo(c.req.valid('param').survey)
    return c.json({ done: true, undone } as const, 200)
  })

  app.openapi(api.getQuadratSeries, (c) => {
    const { survey, quadrat } = c.req.valid('param')
    const { from, to, quantity, steps } = c.req.valid('query')
    if (!surveyNamed(survey).quadrats.some((candidate) => candidate.label === quadrat))
      throw new HubError('E_NOT_FOUND', `Survey "${survey}" has no quadrat "${quadrat}".`)
    const toMs = to === undefined ? side.nowMs() + 1000 : Date.parse(to)
    const fromMs = from === undefined ? toMs - 3_600_000 : Date.parse(from)
    const series = quadratSeries(side.reader, side.timelines(), {
      survey,
      quadrat,
      quantity,
      fromMs,
      toMs,
      steps,
    })
    const nights = nightsWithin(surveyNamed(survey), fromMs, toMs)
    const marks = marksWithin(surveyNamed(survey), quadrat, fromMs, toMs)
    return c.json({ series, nights, marks }, 200)
  })

  app.openapi(api.getReading, (c) => {
    const { reading } = c.req.valid('param')
    const explained = explainReading(side.reader, side.timelines(), reading)
    if (!explained) throw new HubError('E_NOT_FOUND', `There is no reading ${reading}.`)
    return c.json(explained, 200)
  })

  app.openapi(api.getQuarantine, (c) => {
    const { before, limit } = c.req.valid('query')
    const quarantined = side.reader.quarantine(before ?? Number.MAX_SAFE_INTEGER, limit).map((row) => ({
      id: row.id,
      arrived: rfc3339(row.arrivedMs),
      source: row.source,
      board: row.board,
      code: row.code,
      message: row.message,
      remedy: isErrorCode(row.code) ? errorCatalogue[row.code].remedy : '',
      shown: showBytes(row.bytes, 200),
      length: row.bytes.length,
    }))
    return c.json({ quarantined }, 200)
  })

  app.openapi(api.getPorts, async (c) => c.json(await listPorts(), 200))
  app.openapi(api.postPort, async (c) => {
    await side.desk.openPort(c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.deletePort, async (c) => {
    await side.desk.closePort(c.req.valid('query').path)
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.postAsk, async (c) => {
    await side.desk.askBoard(c.req.valid('param').board, c.req.valid('json').words)
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.postRehearsal, async (c) => {
    await side.desk.startRehearsal(c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.deleteRehearsal, async (c) => {
    await side.desk.endRehearsal()
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.getReadingsCsv, (c) => {
    const query = c.req.valid('query')
    if (query.survey !== undefined) surveyNamed(query.survey)
    // a reader of its own: two downloads at once must not share the rows one of them has set aside
    const reader = side.reader.another()
    const name = ['readings', query.survey, query.quadrat, query.quantity, query.set]
      .filter((part) => part !== undefined)
      .map((part) => part.replace(/[^A-Za-z0-9._-]+/g, '-'))
      .join('-')
    c.header('content-type', 'text/csv; charset=utf-8')
    c.header('content-disposition', `attachment; filename="${name}.csv"`)
    return c.body(textStream(readingsCsv(reader, side.timelines(), query), () => reader.close())) as never
  })

  app.get('/api/stream', (c) => {
    const since = c.req.header('last-event-id') ?? c.req.query('since')
    const cursor = since !== undefined && /^\d{1,15}$/.test(since) ? Number(since) : null
    side.stream.open(c.env.outgoing, cursor)
    return RESPONSE_ALREADY_SENT
  })

  app.doc31('/api/openapi.json', {
    openapi: '3.1.0',
    info: { title: 'Tussock hub', version: side.facts.version },
  })
  app.all('/api/*', (c) =>
    refuse(c, new HubError('E_NOT_FOUND', `There is no ${c.req.method} ${c.req.path}.`)),
  )
  app.get('*', (c) => pageFile(c, side.pageFolder))
  return app
}

function hubNow(side: PageSide): HubNow {
  const { broker, trouble, isRecomputing, recomputing } = side.state()
  return {
    ...side.facts,
    nowMs: side.nowMs(),
    broker,
    trouble,
    isRecomputing,
    recomputing,
    tallies: side.reader.tallies(),
    surveys: side.timelines().surveys.map(({ id, title }) => ({ id, title })),
    lastMessage: side.reader.lastMessageId(),
  }
}

// biome-ignore lint/suspicious/noExplicitAny: refusals answer every route, whatever its types
function refuse(c: Context, error: HubError): any {
  return c.json(errorBody(error), error.status as 400)
}

function hostOf(origin: string): string | null {
  try {
    return new URL(origin).host
  } catch {
    return null
  }
}

/** The same answer to everyone who asks within `ms`, while what it is `of` stays the same. */
function keepFor<T>(ms: number, of: () => unknown, make: () => T): () => T {
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

/** Text as it is made, at the reader's pace, with a pause for other requests after each piece. */
function textStream(pieces: Generator<string>, atEnd: () => void): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder()
  let isOver = false
  const end = () => {
    if (!isOver) {
      isOver = true
      pieces.return(undefined)
      atEnd()
    }
  }
  return new ReadableStream({
    async pull(controller) {
      try {
        await nextTurn()
        const next = pieces.next()
        if (!next.done) controller.enqueue(encoder.encode(next.value))
        else {
          end()
          controller.close()
        }
      } catch (error) {
        end()
        controller.error(error)
      }
    },
    cancel: end,
  })
}

const CONTENT_TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.json': 'application/json',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
}

/** A file of the built page; any other address is the page itself, which knows its own places. */
async function pageFile(c: Context, folder: string): Promise<Response> {
  const path = normalize(c.req.path).replace(/^(\.\.[/\\])+/, '')
  const type = CONTENT_TYPES[extname(path)]
  try {
    if (type === undefined || path.includes('..')) throw new Error('not a file')
    const file = await readFile(join(folder, path))
    const isHashed = path.startsWith('/assets/')
    c.header('content-type', type)
    c.header('cache-control', isHashed ? 'public, max-age=31536000, immutable' : 'no-cache')
    return c.body(new Uint8Array(file))
  } catch {
    if (type !== undefined && type !== CONTENT_TYPES['.html'])
      return refuse(c, new HubError('E_NOT_FOUND', `There is no file ${c.req.path}.`))
    const page = await readFile(join(folder, 'index.html'), 'utf8').catch(() => null)
    if (page === null) return c.text('The page has not been built: run npm run build.', 500)
    c.header('cache-control', 'no-cache')
    return c.html(page)
  }
}
