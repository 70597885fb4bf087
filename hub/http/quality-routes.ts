import * as api from '../contract/api.ts'
import { countClean } from '../export/clean-count.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'
import { qualityTestsListed } from './quality-list.ts'

/** What is clean and why not, decisions by hand, and the limits of the tests. */
export function routeQuality(app: HubApp, side: PageSide): void {
  app.openapi(api.getClean, (c) => {
    const { id } = surveyNamed(side, c.req.valid('param').survey)
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
}
