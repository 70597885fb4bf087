import type { z } from 'zod'
import type { PlanDrawn, PlanWish } from '../../contract/plan-api.ts'
import { findQuadratFaults } from '../fieldwork-faults.ts'
import { planWarnings, zoneFaults } from './plan-warnings.ts'
import { redrawPlan } from './redraw-plan.ts'
import { shareAmongGroups } from './share-among-groups.ts'
import { adviseWalk } from './walk.ts'

const NO_WALK = { words: 'as planned', labels: [], metres: 0, strongest: 0 }

/** A plan as it is drawn while it is typed: its quadrats or its faults, its warnings, its walk, its groups. */
export function answerPlan(wish: z.output<typeof PlanWish>): PlanDrawn {
  const { drawn, faults } = redrawPlan(wish.before, wish.after, wish.quadrats)
  faults.push(...zoneFaults(wish.after.transects))
  const quadrats = drawn.map(({ quadrat }) => quadrat)
  const labels = quadrats.map(({ label }) => label)
  for (const [index, label] of labels.entries())
    if (labels.indexOf(label) < index)
      faults.push({ path: `quadrats[${index}].label`, message: `the label "${label}" is used twice` })
  findQuadratFaults({ ...EMPTY, ...wish.after, quadrats }, (path, message) => faults.push({ path, message }))
  if (faults.length > 0)
    return {
      faults,
      quadrats: [],
      rules: [],
      warnings: [],
      walk: { planned: NO_WALK, warnings: [], proposed: null, others: [] },
      shares: [],
    }
  const visited = quadrats.filter(({ lifted }) => lifted === undefined)
  const place = new Map(wish.walk.map((label, turn) => [label, turn]))
  const turnOf = (label: string) => place.get(label) ?? Number.POSITIVE_INFINITY
  const inOrder = [...visited].sort((one, other) => {
    const [first, second] = [turnOf(one.label), turnOf(other.label)]
    return first === second ? 0 : first - second
  })
  return {
    faults: [],
    quadrats,
    rules: drawn.map(({ rule }) => rule),
    warnings: planWarnings(visited),
    walk: adviseWalk(inOrder),
    shares: wish.groups.length === 0 ? [] : shareAmongGroups(visited, wish.groups),
  }
}

/** The rest of a survey, for the rules that look at a whole one. */
const EMPTY = {
  tussockSurvey: 1 as const,
  id: 'plan',
  title: 'plan',
  site: { name: 'plan' },
  boards: [],
  probes: [],
  placements: [],
  calibrations: [],
}
