import type { PlanRule } from '../../contract/plan.ts'
import type { Plot, Quadrat, SurveyFile } from '../../contract/survey.ts'
import { drawGrid, drawRandom, drawStratified } from './draw-in-plot.ts'
import { drawAlong, drawBelt } from './draw-on-tape.ts'
import { countOf, type PlanFault } from './plan-faults.ts'

/** Where quadrats can be: the tapes and plots of a survey. */
export interface Ground {
  transects: SurveyFile['transects']
  plots: readonly Plot[]
}

export interface DrawnQuadrat {
  quadrat: Quadrat
  /** index of the rule that laid it */
  rule: number
}

const QUADRATS_AT_MOST = 10_000

/**
 * Lays quadrats by rules, in the order of the rules; the same ground and rules give the same list, always.
 * @returns the quadrats, or every reason why they cannot be laid, at its place such as `plan[0].count`
 * @example 20 m, one every 0.5 m from 0 on: 41 quadrats
 */
export function drawPlan(
  ground: Ground,
  rules: readonly PlanRule[],
): { drawn: DrawnQuadrat[]; faults: PlanFault[] } {
  const faults: PlanFault[] = []
  const drawn: DrawnQuadrat[] = []
  const ruleOfLabel = new Map<string, number>()
  for (const [index, rule] of rules.entries()) {
    const fault = (field: string, message: string) =>
      faults.push({ path: `plan[${index}].${field}`, message })
    const quadrats = drawRule(ground, rule, fault)
    if (drawn.length + quadrats.length > QUADRATS_AT_MOST)
      fault('rule', `a survey has at most ${countOf(QUADRATS_AT_MOST, 'quadrat')}; these are more`)
    for (const quadrat of quadrats) {
      const other = ruleOfLabel.get(quadrat.label)
      if (other !== undefined) {
        fault(
          'prefix',
          `the label "${quadrat.label}" is used twice, here and by rule ${other + 1}; begin these labels with other letters`,
        )
        break
      }
    }
    for (const quadrat of quadrats.slice(0, QUADRATS_AT_MOST)) {
      if (!ruleOfLabel.has(quadrat.label)) ruleOfLabel.set(quadrat.label, index)
      drawn.push({ quadrat, rule: index })
    }
  }
  return faults.length > 0 ? { drawn: [], faults } : { drawn, faults }
}

function drawRule(
  { transects, plots }: Ground,
  rule: PlanRule,
  fault: (field: string, message: string) => void,
): Quadrat[] {
  if (rule.rule === 'along' || rule.rule === 'belt') {
    const transect = transects.find(({ id }) => id === rule.transect)
    if (transect)
      return rule.rule === 'along' ? drawAlong(transect, rule, fault) : drawBelt(transect, rule, fault)
    fault('transect', `there is no transect "${rule.transect}"`)
    return []
  }
  const plot = plots.find(({ id }) => id === rule.plot)
  if (!plot) {
    fault('plot', `there is no plot "${rule.plot}"`)
    return []
  }
  switch (rule.rule) {
    case 'random':
      return drawRandom(plot, rule, fault)
    case 'stratified':
      return drawStratified(plot, rule, fault)
    case 'grid':
      return drawGrid(plot, rule, fault)
  }
}
