import type { KeepPlan } from '../../../hub/contract/plan-api.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'

/** A name for files and addresses, made from the title and free among those in use. */
export function surveyIdFor(title: string, taken: readonly string[]): string {
  const plain = title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 48)
  const base = plain === '' ? 'survey' : plain
  for (let number = 1; ; number++) {
    const id = number === 1 ? base : `${base}-${number}`
    if (!taken.includes(id)) return id
  }
}

/** A survey that has a plan and nothing else yet; empty parts are left out. */
export function newSurvey(plan: KeepPlan, id: string): SurveyFile {
  const { plots, plan: rules, walk, groups, wanted, ...parts } = plan
  const filled = { plots, plan: rules, walk, groups, wanted }
  return {
    tussockSurvey: 1,
    id,
    ...parts,
    ...Object.fromEntries(Object.entries(filled).filter(([, list]) => list !== undefined && list.length > 0)),
    boards: [],
    probes: [],
    placements: [],
    calibrations: [],
  }
}
