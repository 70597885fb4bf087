import type { IncomingMessage, ServerResponse } from 'node:http'
import { RESPONSE_ALREADY_SENT } from '@hono/node-server/utils/response'
import { OpenAPIHono } from '@hono/zod-openapi'
import { compress } from 'hono/compress'
import { HTTPException } from 'hono/http-exception'
import { HubError, messageOf, systemCode } from '../errors.ts'
import { pathText } from '../survey/read-survey-file.ts'
import { routeAccess } from './access-routes.ts'
import { routeBench } from './bench-routes.ts'
import { refuse } from './error-body.ts'
import { routeExports } from './export-routes.ts'
import { routeField } from './field-routes.ts'
import { guard, SECURITY_HEADERS } from './guard.ts'
import { routeHub } from './hub-routes.ts'
import { pageFile } from './page-files.ts'
import type { HubApp, PageSide } from './page-side.ts'
import { routePlan } from './plan-routes.ts'
import { routeQuality } from './quality-routes.ts'
import { routeReadings } from './readings-routes.ts'
import { routeReport } from './report-routes.ts'
import { routeSpots } from './spot-routes.ts'
import { routeStudy } from './study-routes.ts'
import { routeSurveys } from './surveys-routes.ts'

/** The hub's HTTP API, its live stream and its page. */
export function makeApp(side: PageSide): HubApp {
  const app = new OpenAPIHono<{ Bindings: { incoming: IncomingMessage; outgoing: ServerResponse } }>({
    defaultHook: (result, c) => {
      if (result.success) return undefined
      const code = result.target === 'json' ? 'E_BODY' : 'E_QUERY'
      const faults = result.error.issues.map((issue) => `${pathText(issue.path) || 'body'}: ${issue.message}`)
      return refuse(c, new HubError(code, `${faults.join('; ')}.`))
    },
  })

  guard(app, side)
  app.onError((error, c) => {
    if (error instanceof HubError) return refuse(c, error)
    if (error instanceof HTTPException) return refuse(c, new HubError('E_BODY', `${messageOf(error)}.`))
    // who hung up in the middle of a request is no failure of the hub's, and must not fill its screen
    if (systemCode(error) === 'ECONNRESET') return refuse(c, new HubError('E_BODY', 'The request broke off.'))
    console.error(error)
    return c.json({ error: { code: 'E_HUB', message: `The hub failed: ${messageOf(error)}` } }, 500)
  })

  routeAccess(app, side)
  routeHub(app, side)
  routeSurveys(app, side)
  routeBench(app, side)
  routePlan(app, side)
  routeQuality(app, side)
  routeReadings(app, side)
  routeSpots(app, side)
  routeStudy(app, side)
  routeReport(app, side)
  routeField(app, side)
  routeExports(app, side)

  app.get('/api/stream', (c) => {
    const since = c.req.header('last-event-id') ?? c.req.query('since')
    const cursor = since !== undefined && /^\d{1,15}$/.test(since) ? Number(since) : null
    // it is written past the framework, and its headers with it
    for (const [name, value] of Object.entries(SECURITY_HEADERS)) c.env.outgoing.setHeader(name, value)
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
  // thirty phones on one Wi-Fi: a third of the bytes
  app.get('*', compress(), (c) => pageFile(c, side.pageFolder))
  return app
}
