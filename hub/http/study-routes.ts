import * as api from '../contract/study-api.ts'
import { HubError } from '../errors.ts'
import { pairReferences } from '../study/pairing.ts'
import { Study } from '../study/study.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'

/** A name in a list of names is set off by this, because commas are part of some. */
const BETWEEN_NAMES = '|'

/** From readings to the write-up. */
export function routeStudy(app: HubApp, side: PageSide): void {
  const studyOf = (survey: string) => new Study(side.reader, side.timelines(), surveyNamed(side, survey))

  app.openapi(api.getPairing, (c) => {
    const { id } = surveyNamed(side, c.req.valid('param').survey)
    return c.json(pairReferences(side.reader, side.timelines(), id), 200)
  })

  app.openapi(api.getSummary, (c) =>
    c.json(studyOf(c.req.valid('param').survey).summary(wishOf(c.req.valid('query'))), 200),
  )

  app.openapi(api.getSheets, async (c) =>
    c.json({ sheets: await studyOf(c.req.valid('param').survey).sheets() }, 200),
  )

  app.openapi(api.postSheet, async (c) => {
    const { survey } = c.req.valid('param')
    const study = studyOf(survey)
    const bytes = new Uint8Array(await c.req.arrayBuffer())
    const id = await side.desk.addSheet(survey, { ...c.req.valid('query'), bytes })
    const sheet = (await study.sheets()).find((each) => each.id === id)
    if (!sheet) throw new HubError('E_NOT_FOUND', `Sheet ${id} of survey "${survey}" is not there.`)
    return c.json({ done: true, sheet } as const, 200)
  })

  app.openapi(api.putSheetAnswers, async (c) => {
    const { survey, sheet } = c.req.valid('param')
    await side.desk.answerSheet(survey, sheet, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postSheetRemoval, async (c) => {
    const { survey, sheet } = c.req.valid('param')
    await side.desk.removeSheet(survey, sheet, c.req.valid('json').isRemoved)
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.getJoin, async (c) =>
    c.json(await studyOf(c.req.valid('param').survey).join(wishOf(c.req.valid('query'))), 200),
  )

  app.openapi(api.getStatistics, async (c) => {
    const { redraws, factors, taxa, heldBack, ...query } = c.req.valid('query')
    const answer = await studyOf(c.req.valid('param').survey).statistics({
      ...wishOf(query),
      redraws,
      isVerdictHeldBack: heldBack === 'yes',
      ...(factors === undefined ? {} : { factors: factors.split(BETWEEN_NAMES) }),
      ...(taxa === undefined ? {} : { taxa: taxa.split(BETWEEN_NAMES) }),
    })
    return c.json(answer, 200)
  })

  app.openapi(api.getCatches, async (c) =>
    c.json({ catches: await studyOf(c.req.valid('param').survey).catches() }, 200),
  )
}

function wishOf(query: { window: 'all' | 'common'; hydrogenIons: 'yes' | 'no' }) {
  return { window: query.window, withHydrogenIons: query.hydrogenIons === 'yes' }
}
