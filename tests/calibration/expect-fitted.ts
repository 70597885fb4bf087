import { expect } from 'vitest'
import {
  type Conditions,
  type Fitted,
  fitCalibration,
  isRefusal,
  type Recipe,
  type Refusal,
  type Value,
} from '../../calibration/index.ts'

/** The fitted calibration; fails the test on a refusal. */
export function fitted(recipe: Recipe): Fitted {
  const answer = fitCalibration(recipe)
  if (isRefusal(answer)) throw new Error(`refused: ${answer.code} ${answer.message}`)
  return answer
}

/** The value at a signal; fails the test on a refusal. */
export function readAt(curve: Fitted, signal: number, conditions?: Conditions): Value {
  const value = curve.valueAt(signal, conditions)
  if (isRefusal(value)) throw new Error(`refused: ${value.code} ${value.message}`)
  return value
}

/** Asserts a refusal with this code and a sentence a person can act on. */
export function expectRefusal(answer: unknown, code: string): Refusal {
  expect(isRefusal(answer), `expected ${code}, got ${JSON.stringify(answer)}`).toBe(true)
  const refusal = answer as Refusal
  expect(refusal.code).toBe(code)
  expect(refusal.message.length).toBeGreaterThan(15)
  return refusal
}

/** A number from a table, with half a unit of its last printed digit as tolerance. */
export function printed(text: string): { number: number; tolerance: number } {
  const decimals = text.split('.')[1]?.length ?? 0
  return { number: Number(text), tolerance: 0.5 * 10 ** -decimals + 1e-9 }
}
