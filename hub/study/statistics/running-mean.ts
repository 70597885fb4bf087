import type { Refusal } from '../../../calibration/index.ts'
import { refuseNumbers } from './check-numbers.ts'
import { refuse } from './refusals.ts'

/** So many running means in a row must lie near the last one. Common practice. */
const LAST_MEANS = 3

export interface RunningMean {
  /** mean of the first 1, 2, 3 … values */
  means: number[]
  /** do the last three running means lie within the tolerance of the final one? null for fewer than three */
  isSettled: boolean | null
  /** number of values from which on every running mean lies within the tolerance; null when not settled */
  settledAt: number | null
  /** share of the final mean, such as 0.05 */
  tolerance: number
}

/**
 * Mean after each further quadrat: have enough been counted?
 * @param values  in the order they were counted, one or more
 * @param tolerance  as a share of the final mean, above 0
 * @returns refusal `E_TOO_FEW` when empty, `E_NOT_FINITE`, `E_LEVEL`
 */
export function runningMean(values: readonly number[], tolerance = 0.05): RunningMean | Refusal {
  const wrong = refuseNumbers(values, 'x')
  if (wrong !== null) return wrong
  if (!(tolerance > 0))
    return refuse('E_LEVEL', `The tolerance is ${tolerance}; it is above 0, such as 0.05.`)
  const means: number[] = []
  let mean = 0
  for (const [k, value] of values.entries()) {
    mean += (value - mean) / (k + 1)
    means.push(mean)
  }
  const final = means.at(-1)!
  // a hair of room, so that exactly 5 % does not hang on rounding
  const room = tolerance * Math.abs(final) * (1 + 1e-12)
  const lastFar = means.findLastIndex((each) => Math.abs(each - final) > room)
  const near = means.length - 1 - lastFar
  const isSettled = means.length < LAST_MEANS ? null : near >= LAST_MEANS
  return { means, isSettled, settledAt: isSettled === true ? lastFar + 2 : null, tolerance }
}
