import { type Fields, type Fitted, judgeCheck } from '../../../calibration/index.ts'
import { conditionsOf } from '../fit/conditions.ts'
import type { Held } from '../hold/hold.ts'

/** A check that was held and not saved yet. */
export interface MadeCheck {
  held: Held
  fields: Fields
  unit: string
  atMs: number
  reference: { value: number; name: string }
}

export type CheckOutcome =
  | {
      kind: 'judged'
      reading: number
      error: number
      passLimit: number
      warnLimit: number
      verdict: 'pass' | 'warn' | 'fail'
    }
  | { kind: 'none'; why: string }

/** The reading by the calibration in force, held against the reference. Nothing is adjusted. */
export function judgeMade(quantity: string, fitted: Fitted, check: MadeCheck): CheckOutcome {
  const read = fitted.valueAt(check.held.signal, conditionsOf(fitted, check.fields, check.unit))
  if (!('value' in read)) return { kind: 'none', why: read.message }
  const judged = judgeCheck(quantity, read.value, check.reference.value)
  return 'refused' in judged
    ? { kind: 'none', why: judged.message }
    : { kind: 'judged', reading: read.value, ...judged }
}
