import * as api from '../contract/api.ts'
import { addCalibration, withdrawCalibration } from '../survey/change-survey.ts'
import { previewChange } from '../survey/preview-change.ts'
import { readSurveyFile } from '../survey/read-survey-file.ts'
import { readinessOf } from '../survey/readiness.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'

/** Calibrations, check standards, drift, and which probes may go out. */
export function routeBench(app: HubApp, side: PageSide): void {
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
    const added = add ? addCalibration(surveyNamed(side, id), add) : surveyNamed(side, id)
    const changed =
      withdraw === undefined ? added : withdrawCalibration(added, withdraw, 'tried out', side.nowMs())
    const { survey, faults } = readSurveyFile(changed)
    if (survey === null) throw new SurveyRefused(faults)
    return c.json({ moves: await previewChange(side.reader, side.timelines(), survey) }, 200)
  })

  app.openapi(api.getReadiness, (c) => {
    const survey = surveyNamed(side, c.req.valid('param').survey)
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

  app.openapi(api.postProbeWithdrawal, async (c) => {
    const { survey, probe } = c.req.valid('param')
    await side.desk.withdrawProbe(survey, probe, c.req.valid('json').reason)
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postPut, async (c) => c.json({ text: await side.desk.putProbe(c.req.valid('json')) }, 200))
}
