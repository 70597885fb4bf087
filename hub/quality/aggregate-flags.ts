import type { Flag, FlagReason } from '../contract/flag.ts'

/**
 * One flag out of many. From low to high: 9 missing, 2 not evaluated, 1 pass, 3 suspect, 4 fail: a test that could not
 * run never outranks one that passed.
 * @see roll-up order of a published QC library for the QARTOD flags; tests/reference/qc.json
 */
const order: readonly Flag[] = [9, 2, 1, 3, 4]

export function aggregateFlags(flags: readonly Flag[]): Flag {
  return flags.reduce<Flag>((worst, flag) => (order.indexOf(flag) > order.indexOf(worst) ? flag : worst), 9)
}

export function aggregateReasons(reasons: readonly FlagReason[], isEvaluated: boolean): Flag {
  if (reasons.length === 0) return isEvaluated ? 1 : 2
  return aggregateFlags([isEvaluated ? 1 : 2, ...reasons.map((reason) => reason.flag)])
}

/** Reasons as they are stored: the one that set the flag first. JSON, or null when there is none. */
export function reasonsText(reasons: readonly FlagReason[]): string | null {
  if (reasons.length === 0) return null
  return JSON.stringify(reasons.toSorted((a, b) => order.indexOf(b.flag) - order.indexOf(a.flag)))
}
