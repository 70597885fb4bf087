import { expect } from 'vitest'
import { isRefusal, type Refusal } from '../../../../calibration/index.ts'

/** The answer; fails on a refusal. */
export function answered<Answer>(answer: Answer | Refusal): Answer {
  if (isRefusal(answer)) throw new Error(`${answer.code}: ${answer.message}`)
  return answer
}

/** The refusal's message; fails on an answer or another code. */
export function refusedWith(answer: unknown, code: string): string {
  if (!isRefusal(answer)) throw new Error(`answered ${JSON.stringify(answer)}`)
  expect(answer.code).toBe(code)
  return answer.message
}

/** How many significant digits of a certified value are met: the logarithm of the relative error. */
export function digitsMet(found: number | null, certified: number): number {
  if (found === null) return 0
  if (found === certified) return 16
  return -Math.log10(Math.abs(found - certified) / Math.abs(certified))
}
