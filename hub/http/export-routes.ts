import * as api from '../contract/export-api.ts'
import { byteStream } from '../export/byte-stream.ts'
import { listExports } from '../export/exports.ts'
import { openExport } from '../export/open-export.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'

/** A whole survey as one file, in open formats. */
export function routeExports(app: HubApp, side: PageSide): void {
  app.openapi(api.getExports, (c) => c.json({ exports: listExports() }, 200))

  app.openapi(api.getStudyExport, async (c) => {
    const { survey, name } = c.req.valid('param')
    const { id } = surveyNamed(side, survey)
    const { fileName, mediaType, pieces, close } = await openExport(
      side.reader.folder,
      id,
      name,
      c.req.valid('query'),
      { version: side.facts.version, nowMs: side.nowMs },
    )
    c.header('content-type', mediaType)
    c.header('content-disposition', `attachment; filename="${fileName}"`)
    if (c.req.method === 'HEAD') {
      close() // nobody reads the body
      return c.body(null) as never
    }
    return c.body(byteStream(pieces, close)) as never
  })
}
