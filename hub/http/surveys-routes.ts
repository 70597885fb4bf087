import * as api from '../contract/api.ts'
import { withSpots } from '../export/with-spots.ts'
import { readSurveyFile } from '../survey/read-survey-file.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'

/** Surveys as files, and where their probes stand. */
export function routeSurveys(app: HubApp, side: PageSide): void {
  app.openapi(api.getSurvey, (c) => {
    const survey = surveyNamed(side, c.req.valid('param').survey)
    const isWhole = c.req.valid('query').spots === 'included'
    return c.json(isWhole ? withSpots(survey, side.timelines().spots) : survey, 200)
  })

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

  app.openapi(api.postPlacementAmendment, async (c) => {
    await side.desk.amendPlacement(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postClockCorrection, async (c) => {
    const id = await side.desk.addClockCorrection(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true, id } as const, 200)
  })
  app.openapi(api.deleteClockCorrection, async (c) => {
    const { survey, correction } = c.req.valid('param')
    await side.desk.removeClockCorrection(survey, correction)
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postProbeRole, async (c) => {
    const { survey, probe } = c.req.valid('param')
    await side.desk.setProbeRole(survey, probe, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postUndo, async (c) => {
    const undone = await side.desk.undo(c.req.valid('param').survey)
    return c.json({ done: true, undone } as const, 200)
  })
}
