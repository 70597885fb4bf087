import type { Advice, BudgetLine, Conditions, Fitted, Remark, Residual, Value, Verdict } from './fitted.ts'
import { type Refusal, refuse } from './refusal.ts'
import { unitFactor } from './units.ts'

/** The usual case, shared so that a plain value allocates nothing but itself. */
export const NO_REMARKS: readonly Remark[] = Object.freeze([])
export const EXTRAPOLATED: readonly Remark[] = Object.freeze(['extrapolated'] as const)
export const IMPOSSIBLE: readonly Remark[] = Object.freeze(['extrapolated', 'impossible'] as const)

/** What a curve has to say for itself; {@link makeFitted} adds the unit of the signal and the finiteness check. */
export interface CurveParts {
  kind: Fitted['kind']
  unit: string
  signalUnits: string[]
  verdict: Verdict
  advice: Advice[]
  facts: Fitted['facts']
  signalRange: Fitted['signalRange']
  residuals: Residual[]
  budget(signal: number, conditions: Conditions | undefined): BudgetLine[]
  /** the signal is finite and in the first of `signalUnits` */
  evaluate(signal: number, conditions: Conditions | undefined): Value | Refusal
  invert(value: number, conditions: Conditions | undefined): number | null
}

/** Wraps a curve as a {@link Fitted}: signal units are brought to the curve's own, non-finite signals refused. */
export function makeFitted(parts: CurveParts): Fitted {
  const own = parts.signalUnits[0]
  const scale = (conditions: Conditions | undefined): number | null => {
    const unit = conditions?.signalUnit
    if (unit === undefined || own === undefined || unit === own) return 1
    return unitFactor(unit, own)
  }
  return {
    kind: parts.kind,
    unit: parts.unit,
    signalUnits: parts.signalUnits,
    verdict: parts.verdict,
    advice: parts.advice,
    facts: parts.facts,
    signalRange: parts.signalRange,
    residuals: parts.residuals,
    budget(signal, conditions) {
      const factor = scale(conditions)
      if (factor === null || !Number.isFinite(signal)) return []
      return parts.budget(signal * factor, conditions)
    },
    valueAt(signal, conditions) {
      if (!Number.isFinite(signal)) return refuse('E_NOT_FINITE', `The signal is ${signal}, not a number.`)
      const factor = scale(conditions)
      if (factor === null) {
        return refuse(
          'E_SIGNAL_UNIT',
          `The signal came in ${conditions?.signalUnit}; this calibration reads ${parts.signalUnits.join(' or ')}.`,
        )
      }
      const answer = parts.evaluate(factor === 1 ? signal : signal * factor, conditions)
      if ('value' in answer && !Number.isFinite(answer.value + (answer.standardUncertainty ?? 0))) {
        return refuse(
          'E_SIGNAL_RANGE',
          `A signal of ${signal} lies far beyond this curve; check the wiring and the unit.`,
        )
      }
      return answer
    },
    signalAt(value, conditions) {
      if (!Number.isFinite(value)) return null
      const signal = parts.invert(value, conditions)
      return signal === null || !Number.isFinite(signal) ? null : signal
    },
  }
}

/** The worst of several verdicts. */
export function worst(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes('fail')) return 'fail'
  return verdicts.includes('warn') ? 'warn' : 'pass'
}
