import { isDeepStrictEqual } from 'node:util'
import type { PlanRule } from '../../contract/plan.ts'
import type { Quadrat } from '../../contract/survey.ts'
import { type DrawnQuadrat, drawPlan, type Ground } from './draw-plan.ts'
import type { PlanFault } from './plan-faults.ts'

/** What quadrats were laid by. */
export interface PlanLaid extends Ground {
  plan: readonly PlanRule[]
}

/**
 * Lays the quadrats again after the rules or the ground were changed. A quadrat that was changed by hand, or that no rule
 * ever laid, stays as it is; the others follow the rules.
 * @param quadrats  as they are now, laid by `before` and perhaps changed since
 * @returns quadrats in the order of the rules, then the others; or the faults, and nothing is laid
 */
export function redrawPlan(
  before: PlanLaid,
  after: PlanLaid,
  quadrats: readonly Quadrat[],
): { drawn: { quadrat: Quadrat; rule: number | null }[]; faults: PlanFault[] } {
  const now = drawPlan(after, after.plan)
  if (now.faults.length > 0) return { drawn: [], faults: now.faults }
  const once = byLabel(drawPlan(before, before.plan).drawn)
  const have = new Map(quadrats.map((quadrat) => [quadrat.label, quadrat]))
  const laid = byLabel(now.drawn)
  const drawn = now.drawn.flatMap(({ quadrat, rule }) => {
    const mine = have.get(quadrat.label)
    const was = once.get(quadrat.label)
    if (!mine) return was && isAsBefore(was.quadrat, quadrat) ? [] : [{ quadrat, rule }]
    const isUntouched = was !== undefined && isDeepStrictEqual(was.quadrat, mine)
    return [{ quadrat: isUntouched ? quadrat : mine, rule }]
  })
  const others = quadrats.filter((quadrat) => {
    if (laid.has(quadrat.label)) return false
    const was = once.get(quadrat.label)
    return was === undefined || !isDeepStrictEqual(was.quadrat, quadrat)
  })
  return { drawn: [...drawn, ...others.map((quadrat) => ({ quadrat, rule: null }))], faults: [] }
}

/** Taken out by hand, and the rule still says the same: it stays out. */
function isAsBefore(was: Quadrat, now: Quadrat): boolean {
  return isDeepStrictEqual(was, now)
}

function byLabel(drawn: readonly DrawnQuadrat[]): Map<string, DrawnQuadrat> {
  return new Map(drawn.map((each) => [each.quadrat.label, each]))
}
