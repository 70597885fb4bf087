import type { SurveyFile } from '../../hub/contract/survey.ts'

/** The planned parts of a survey as one text: where it is the same, so is the plan. */
export function planText(survey: SurveyFile): string {
  const { title, site, from, to, transects, plots, quadrats, plan, walk, groups, wanted } = survey
  return JSON.stringify([title, site, from, to, transects, plots, quadrats, plan, walk, groups, wanted])
}
