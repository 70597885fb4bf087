import * as api from '../contract/study-api.ts'
import { pairReferences } from '../study/pairing.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'

/** From readings to the write-up. */
export function routeStudy(app: HubApp, side: PageSide): void {
  app.openapi(api.getPairing, (c) => {
    const { id } = surveyNamed(side, c.req.valid('param').survey)
    return c.json(pairReferences(side.reader, side.timelines(), id), 200)
  })
}
