import type { Refusal } from '../../../calibration/index.ts'
import { refuse } from './refusals.ts'

/** Larger numbers are no measurements, and their squares would overflow. */
const LARGEST = 1e150

/**
 * What is wrong with a list of numbers, or null when it can be worked with.
 * @param name  as the person who typed the list knows it, for the message
 * @param fewest  the least length
 */
export function refuseNumbers(values: readonly number[], name: string, fewest = 1): Refusal | null {
  if (values.length < fewest) {
    const need = fewest === 1 ? 'one value' : `${fewest} values`
    return refuse(
      'E_TOO_FEW',
      `“${name}” has ${values.length}, at least ${need} needed. Measure more, or leave it out.`,
    )
  }
  const at = values.findIndex((value) => !(Math.abs(value) <= LARGEST))
  if (at < 0) return null
  return refuse(
    'E_NOT_FINITE',
    `Value ${at + 1} of “${name}” is ${values[at]}, not a measured number. Correct it.`,
  )
}

/** The same for two lists that belong together value by value. */
export function refusePairs(x: readonly number[], y: readonly number[]): Refusal | null {
  if (x.length !== y.length) {
    return refuse(
      'E_UNPAIRED',
      `“x” has ${x.length} and “y” has ${y.length}; each x needs its own y. Leave out quadrats that miss one.`,
    )
  }
  return refuseNumbers(x, 'x') ?? refuseNumbers(y, 'y')
}

/** What is wrong with a level of confidence or of significance: it lies between 0 and 1, ends not included. */
export function refuseLevel(level: number): Refusal | null {
  if (level > 0 && level < 1) return null
  return refuse('E_LEVEL', `The level is ${level}; it lies between 0 and 1, such as 0.95.`)
}

/** True when all values are the same; then spread, order and correlation are not defined. */
export function isConstant(values: readonly number[]): boolean {
  return values.every((value) => value === values[0])
}
