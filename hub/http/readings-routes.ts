import * as api from '../contract/api.ts'
import { HubError } from '../errors.ts'
import { readingsCsv } from '../export/readings-csv.ts'
import { marksWithin, nightsWithin } from './chart-marks.ts'
import { explainReading } from './explain.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'
import { quadratSeries } from './quadrat-series.ts'
import { textStream } from './text-stream.ts'

/** Readings for charts, one by one, and as a download. */
export function routeReadings(app: HubApp, side: PageSide): void {
  app.openapi(api.getQuadratSeries, (c) => {
    const { survey, quadrat } = c.req.valid('param')
    const { from, to, quantity, steps } = c.req.valid('query')
    if (!surveyNamed(side, survey).quadrats.some((candidate) => candidate.label === quadrat))
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
    const nights = nightsWithin(surveyNamed(side, survey), fromMs, toMs)
    const marks = marksWithin(surveyNamed(side, survey), quadrat, fromMs, toMs)
    return c.json({ series, nights, marks }, 200)
  })

  app.openapi(api.getReading, (c) => {
    const { reading } = c.req.valid('param')
    const explained = explainReading(side.reader, side.timelines(), reading)
    if (!explained) throw new HubError('E_NOT_FOUND', `There is no reading ${reading}.`)
    return c.json(explained, 200)
  })

  app.openapi(api.getReadingsCsv, (c) => {
    const query = c.req.valid('query')
    if (query.survey !== undefined) surveyNamed(side, query.survey)
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
}
