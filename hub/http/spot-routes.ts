import * as api from '../contract/spot-api.ts'
import { HubError } from '../errors.ts'
import { spotValues } from '../survey/spot-values.ts'
import { type HubApp, keepFor, type PageSide, surveyNamed } from './page-side.ts'

/** Thirty phones look at the list after each capture: they are given the same one. */
const KEPT_MS = 500

/** Spot readings: of a carried meter, and of meters whose values are typed in. */
export function routeSpots(app: HubApp, side: PageSide): void {
  const lists = new Map<string, () => ReturnType<typeof spotValues>>()
  const listOf = (survey: string) => {
    let list = lists.get(survey)
    if (!list) {
      list = keepFor(KEPT_MS, side.timelines, () => spotValues(side.reader, side.timelines(), survey))
      lists.set(survey, list)
    }
    return list()
  }

  app.openapi(api.getSpots, (c) => {
    const { id } = surveyNamed(side, c.req.valid('param').survey)
    const { quadrat, probe } = c.req.valid('query')
    const spots = listOf(id).filter(
      ({ spot }) =>
        (quadrat === undefined || spot.quadrat === quadrat) && (probe === undefined || spot.probe === probe),
    )
    return c.json({ spots }, 200)
  })

  app.openapi(api.postSpot, async (c) => {
    const { survey } = c.req.valid('param')
    const sent = c.req.valid('json')
    const isNew = await side.desk.addSpot(survey, sent)
    const spot = spotValues(side.reader, side.timelines(), survey).find((each) => each.spot.id === sent.id)
    if (!spot) throw new HubError('E_NOT_FOUND', `Spot reading ${sent.id} of "${sent.probe}" is not there.`)
    return c.json({ done: true, isNew, spot } as const, 200)
  })

  app.openapi(api.postSpotAmendment, async (c) => {
    const { survey, spot } = c.req.valid('param')
    await side.desk.amendSpot(survey, spot, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })
}
