import * as api from '../contract/report-api.ts'
import { drawPicture } from '../study/pictures/draw-picture.ts'
import { pictureMaterial } from '../study/pictures/picture-material.ts'
import type { PictureName } from '../study/pictures/picture-names.ts'
import { renderHtml } from '../study/report/render-html.ts'
import { renderPdf } from '../study/report/render-pdf.ts'
import { reportOf } from '../study/report/report-of.ts'
import { pictureWishOf, reportWishOf } from '../study/report/report-wish.ts'
import { Study } from '../study/study.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'

/** Pictures and the report, made anew from the readings whenever they are asked for. */
export function routeReport(app: HubApp, side: PageSide): void {
  const sourceOf = (survey: string) => ({
    reader: side.reader,
    timelines: side.timelines(),
    survey: surveyNamed(side, survey),
    version: side.facts.version,
  })

  app.openapi(api.getPicture, async (c) => {
    const { survey, picture } = c.req.valid('param')
    const study = new Study(side.reader, side.timelines(), surveyNamed(side, survey))
    const wish = pictureWishOf(c.req.valid('query'))
    const material = await pictureMaterial(study, wish)
    const name = picture.replace(/\.svg$/, '') as PictureName
    c.header('content-type', 'image/svg+xml; charset=utf-8')
    return c.body(drawPicture(name, material, wish)) as never
  })

  app.openapi(api.getReportHtml, async (c) => {
    const report = await reportOf(sourceOf(c.req.valid('param').survey), reportWishOf(c.req.valid('query')))
    c.header('content-type', 'text/html; charset=utf-8')
    return c.body(renderHtml(report)) as never
  })

  app.openapi(api.getReportPdf, async (c) => {
    const { survey } = c.req.valid('param')
    const report = await reportOf(sourceOf(survey), reportWishOf(c.req.valid('query')))
    const pdf = await renderPdf(report)
    c.header('content-type', 'application/pdf')
    c.header(
      'content-disposition',
      `inline; filename="report-${survey.replace(/[^A-Za-z0-9._-]+/g, '-')}.pdf"`,
    )
    return c.body(new Uint8Array(pdf)) as never
  })
}
