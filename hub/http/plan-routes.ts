import * as api from '../contract/plan-api.ts'
import { answerPlan } from '../survey/plan/answer-plan.ts'
import { howManyAreEnough } from '../survey/plan/how-many.ts'
import { keepPlan, planChanges, quadratsInUse } from '../survey/plan/keep-plan.ts'
import { readSurveyFile } from '../survey/read-survey-file.ts'
import { type HubApp, type PageSide, surveyNamed } from './page-side.ts'

/** Plans: drawn while they are typed, shown what they would change, kept. */
export function routePlan(app: HubApp, side: PageSide): void {
  app.openapi(api.postPlanDrawing, (c) => c.json(answerPlan(c.req.valid('json')), 200))

  app.openapi(api.postEnough, (c) => c.json(howManyAreEnough(c.req.valid('json')), 200))

  app.openapi(api.postPlanPreview, (c) => {
    const before = surveyNamed(side, c.req.valid('param').survey)
    const measured = measuredQuadrats(side, before.id)
    const after = keepPlan(before, c.req.valid('json'), measured, side.nowMs())
    return c.json(
      {
        changes: planChanges(before, after),
        measured: [...quadratsInUse(before, measured)],
        faults: [...readSurveyFile(after).faults],
      },
      200,
    )
  })

  app.openapi(api.postPlan, async (c) => {
    const { survey } = c.req.valid('param')
    const changes = await side.desk.keepPlan(survey, c.req.valid('json'))
    return c.json({ done: true, changes } as const, 200)
  })
}

function measuredQuadrats(side: PageSide, survey: string): string[] {
  return side
    .timelines()
    .spots.filter((spot) => spot.survey === survey)
    .map(({ quadrat }) => quadrat)
}
