import { isRefusal } from '../../../calibration/index.ts'
import type { Factor } from '../factors.ts'
import { runningMean } from '../statistics/running-mean.ts'
import type { AccumulationPicture } from './accumulation.ts'
import type { PictureMaterial } from './picture-material.ts'
import { nameWithUnit, shownUnit } from './shown-unit.ts'

/** Quadrats measured within this time of each other have no order, ms. */
const AT_ONCE_MS = 60_000
const FEWEST = 2

/** Running means of every factor in the order the quadrats were measured; or why there are none. */
export function accumulationOfStudy({ factors }: PictureMaterial): AccumulationPicture | string {
  const panels = factors.flatMap((factor) => {
    const { factor: by } = shownUnit(factor.unit)
    const answer = runningMean(inOrder(factor).map((value) => value * by))
    if (isRefusal(answer) || answer.means.length < FEWEST) return []
    const { means, tolerance, settledAt } = answer
    return [{ name: nameWithUnit(factor.name, factor.unit), means, tolerance, settledAt }]
  })
  if (panels.length === 0) return 'A running mean needs clean values of a factor at two quadrats or more.'
  return {
    factors: panels,
    notes: [
      'Mean of the first 1, 2, 3 … quadrats in the order they were measured; quadrats that logged at the same time in the order of the survey. The band is the last mean ± 5 %. Along a gradient the mean wanders for as long as the gradient goes on: that is not a lack of quadrats.',
    ],
  }
}

function inOrder({ values }: Factor): number[] {
  const all = [...values.values()]
  const times = all.map(({ atMs }) => atMs)
  const isAtOnce = Math.max(...times) - Math.min(...times) < AT_ONCE_MS
  return (isAtOnce ? all : all.toSorted((one, other) => one.atMs - other.atMs)).map(({ value }) => value)
}
