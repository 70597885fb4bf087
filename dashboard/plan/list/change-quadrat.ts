import type { Quadrat } from '../../../hub/contract/survey.ts'
import type { PlanForm } from '../form/plan-form.ts'
import type { Draft } from '../use-plan-draft.ts'

/** Changes by hand to one quadrat of a plan; each gives the parts of the draft that are different. */

/** Another label or place; the walk, the groups and what is wanted follow a new label. */
export function replaceQuadrat(draft: Draft, label: string, next: Quadrat): Partial<Draft> {
  const quadrats = draft.quadrats.map((quadrat) => (quadrat.label === label ? next : quadrat))
  if (next.label === label) return { quadrats }
  const renamed = (labels: readonly string[]) => labels.map((each) => (each === label ? next.label : each))
  const form: PlanForm = {
    ...draft.form,
    groups: draft.form.groups.map((group) => ({ ...group, quadrats: renamed(group.quadrats) })),
    wanted: draft.form.wanted.map((wanted) => ({
      ...wanted,
      quadrats: wanted.quadrats === undefined ? undefined : renamed(wanted.quadrats),
    })),
  }
  return { quadrats, form, walk: renamed(draft.walk) }
}

export function liftQuadrat(draft: Draft, label: string, reason: string, at: string): Partial<Draft> {
  return {
    quadrats: draft.quadrats.map((quadrat) =>
      quadrat.label === label
        ? { ...quadrat, lifted: { at, ...(reason === '' ? {} : { reason }) } }
        : quadrat,
    ),
  }
}

export function putQuadratBack(draft: Draft, label: string): Partial<Draft> {
  return {
    quadrats: draft.quadrats.map((quadrat) => {
      if (quadrat.label !== label) return quadrat
      const { lifted: _lifted, ...others } = quadrat
      return others
    }),
  }
}

/** The place goes on the rule’s record with its reason, and the next one drawn takes its turn and label. */
export function rejectPlace(draft: Draft, quadrat: Quadrat, rule: number, reason: string): Partial<Draft> {
  const { xMetres, yMetres } = quadrat
  if (xMetres === undefined || yMetres === undefined) return {}
  const plan = draft.form.plan.map((each, index) =>
    index === rule ? { ...each, rejected: [...each.rejected, { xMetres, yMetres, reason }] } : each,
  )
  return {
    form: { ...draft.form, plan },
    quadrats: draft.quadrats.filter(({ label }) => label !== quadrat.label),
  }
}

export function takeQuadratOut(draft: Draft, label: string): Partial<Draft> {
  return { quadrats: draft.quadrats.filter((quadrat) => quadrat.label !== label) }
}
