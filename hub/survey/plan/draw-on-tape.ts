import type { PlanRule } from '../../contract/plan.ts'
import type { Quadrat, SurveyFile } from '../../contract/survey.ts'
import { checkMetres, type SayFault, tidyMetres } from './plan-faults.ts'

type Transect = SurveyFile['transects'][number]
type Rule<Name extends PlanRule['rule']> = Extract<PlanRule, { rule: Name }>

/** One quadrat every so many metres: 20 m at 0.5 m has 41 places, both ends counted. */
export function drawAlong(transect: Transect, rule: Rule<'along'>, fault: SayFault): Quadrat[] {
  return stationsOf(transect, rule, fault).map((distanceMetres, index) => ({
    label: `${rule.prefix}${index + 1}`,
    transect: transect.id,
    distanceMetres,
    sideMetres: rule.sideMetres,
    gridDivisions: rule.gridDivisions ?? 10,
  }))
}

/** Frames side by side across the tape at each station: `Q3a` is the leftmost, looking away from the zero mark. */
export function drawBelt(transect: Transect, rule: Rule<'belt'>, fault: SayFault): Quadrat[] {
  if (rule.sideMetres > 0 && rule.everyMetres > 0 && rule.everyMetres < rule.sideMetres - 1e-9) {
    fault(
      'everyMetres',
      `frames of ${rule.sideMetres} m would overlap every ${rule.everyMetres} m; edge to edge is ${rule.sideMetres}`,
    )
    return []
  }
  return stationsOf(transect, rule, fault).flatMap((distanceMetres, index) =>
    Array.from({ length: rule.sideBySide }, (_, place) => ({
      label: `${rule.prefix}${index + 1}${rule.sideBySide === 1 ? '' : String.fromCharCode(97 + place)}`,
      transect: transect.id,
      distanceMetres,
      offsetMetres: tidyMetres((place - (rule.sideBySide - 1) / 2) * rule.sideMetres),
      sideMetres: rule.sideMetres,
      gridDivisions: rule.gridDivisions ?? 10,
    })),
  )
}

/** Distances of the stations from the zero mark, metres; none when a field is wrong. */
function stationsOf(transect: Transect, rule: Rule<'along'> | Rule<'belt'>, fault: SayFault): number[] {
  const { firstMetres, lastMetres, everyMetres, sideMetres } = rule
  const isFine = checkMetres({ firstMetres, lastMetres }, 'zero', fault)
  if (!checkMetres({ everyMetres, sideMetres }, 'above zero', fault) || !isFine) return []
  const ends = `the tape "${transect.id}" ends at ${transect.lengthMetres} m`
  if (firstMetres > transect.lengthMetres) {
    fault('firstMetres', `${firstMetres} m is past the end: ${ends}`)
    return []
  }
  if (lastMetres !== undefined && lastMetres > transect.lengthMetres) {
    fault('lastMetres', `${lastMetres} m is past the end: ${ends}`)
    return []
  }
  if (lastMetres !== undefined && lastMetres < firstMetres) {
    fault('lastMetres', `the last, at ${lastMetres} m, lies before the first, at ${firstMetres} m`)
    return []
  }
  const steps = Math.floor(((lastMetres ?? transect.lengthMetres) - firstMetres) / everyMetres + 1e-9)
  const count = Math.min(steps + 1, 10_001)
  return Array.from({ length: count }, (_, index) => tidyMetres(firstMetres + index * everyMetres))
}
