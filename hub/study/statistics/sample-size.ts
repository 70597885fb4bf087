import { coverageFactor, isRefusal, type Refusal } from '../../../calibration/index.ts'
import { refuseLevel } from './check-numbers.ts'
import { describeValues } from './describe.ts'
import { refuse } from './refusals.ts'

export interface SampleSize {
  /** counted so far */
  n: number
  /** half-width of the interval of the mean so far, as a share of the mean */
  precisionSoFar: number
  /** least number that is expected to reach the precision asked for */
  needed: number
  /** how many more */
  more: number
  level: number
}

/**
 * How many quadrats a mean needs: the least n with n ≥ (t·s/(p·x̄))², t having n − 1 degrees of freedom itself.
 * @param values  counted so far, two or more, with a mean other than 0
 * @param precision  p, half-width asked for as a share of the mean, such as 0.15 for ±15 %
 * @param level  of confidence, 0–1
 * @returns refusal `E_TOO_FEW`, `E_CONSTANT` when the mean is 0, `E_LEVEL`, `E_TOO_MANY` for more than a million
 * @see Southwood & Henderson 2000, Ecological Methods, 3rd ed., §2.1.3
 */
export function sampleSize(values: readonly number[], precision: number, level = 0.95): SampleSize | Refusal {
  const wrong = refuseLevel(level)
  if (wrong !== null) return wrong
  if (!(precision > 0))
    return refuse('E_LEVEL', `The precision is ${precision}; it is above 0, such as 0.15.`)
  const described = describeValues(values)
  if (isRefusal(described)) return described
  const { n, mean, standardDeviation, standardError } = described
  if (standardDeviation === null || standardError === null) {
    return refuse('E_TOO_FEW', 'One quadrat shows no spread; count a few first.')
  }
  if (mean === 0)
    return refuse('E_CONSTANT', 'The mean is 0, so a share of it is 0 too. Count where the species grows.')
  const variation = standardDeviation / Math.abs(mean)
  const needed = leastNumber(variation / precision, level)
  if (needed === null) {
    return refuse(
      'E_TOO_MANY',
      'More than a million quadrats: ask for less precision, or use larger quadrats.',
    )
  }
  return {
    n,
    precisionSoFar: (coverageFactor(n - 1, level) * standardError) / Math.abs(mean),
    needed,
    more: Math.max(0, needed - n),
    level,
  }
}

/** @param ratio  s/(p·x̄) */
function leastNumber(ratio: number, level: number): number | null {
  // the normal distribution needs the fewest; from there up, one at a time, t falls as n grows
  let n = Math.max(2, Math.ceil((coverageFactor(Number.POSITIVE_INFINITY, level) * ratio) ** 2))
  if (n > 1e6) return null
  while (n < (coverageFactor(n - 1, level) * ratio) ** 2) n++
  return n
}
