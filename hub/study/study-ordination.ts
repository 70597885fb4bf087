import { isRefusal } from '../../calibration/index.ts'
import type { StudyStatistics } from '../contract/study.ts'
import type { Factor } from './factors.ts'
import { principalComponents } from './statistics/principal-components.ts'

const AXES = 2

/** All factors together on two axes, for the quadrats where every factor was measured. */
export function ordinationOf(
  factors: readonly Factor[],
): Pick<StudyStatistics, 'ordination' | 'ordinationWhyNot'> {
  const quadrats = [...(factors[0]?.values.keys() ?? [])].filter((label) =>
    factors.every(({ values }) => values.has(label)),
  )
  const answer = principalComponents(
    factors.map(({ name, values }) => ({ name, values: quadrats.map((label) => values.get(label)!.value) })),
  )
  if (isRefusal(answer)) return { ordination: null, ordinationWhyNot: answer.message }
  const axes = answer.components.slice(0, AXES)
  return {
    ordination: {
      factors: factors.map(({ name }) => name),
      axes: axes.map(({ shareOfVariance, loadings }) => ({
        share: shareOfVariance,
        loadings: loadings.map(({ loading }) => loading),
      })),
      scores: quadrats.map((quadrat, index) => ({ quadrat, at: axes.map(({ scores }) => scores[index]!) })),
    },
    ordinationWhyNot: null,
  }
}
