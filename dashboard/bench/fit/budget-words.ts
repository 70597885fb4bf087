import {
  type BudgetLine,
  type BudgetName,
  combine,
  coverageFactor,
  type Fitted,
} from '../../../calibration/index.ts'

export const BUDGET_WORDS: Readonly<Record<BudgetName, string>> = {
  reference: 'the references themselves',
  fit: 'the curve through few points',
  repeatability: 'the scatter of the signal',
  resolution: 'the step of the signal',
  temperature: 'the temperature of the sample',
  drift: 'wandering since the calibration',
}

export interface Budget {
  lines: (BudgetLine & { share: number })[]
  standardUncertainty: number
  degreesOfFreedom: number
  coverage: number
  /** half-width that holds the truth 95 times in 100 */
  expanded: number
  /** which part to work on, in one sentence */
  dominant: string
}

/** The uncertainty at one signal, part by part; null when it cannot be known. */
export function budgetAt(fitted: Fitted, signal: number, celsius: number | null): Budget | null {
  const conditions = celsius === null ? {} : { temperatureCelsius: celsius }
  const value = fitted.valueAt(signal, conditions)
  if (!('value' in value) || value.standardUncertainty === null) return null
  const lines = fitted
    .budget(signal, conditions)
    .filter((line) => Number.isFinite(line.standardUncertainty) && line.standardUncertainty > 0)
  if (lines.length === 0) return null
  // the parts may share one estimate of scatter, so the degrees of freedom are those of the value, not of their sum
  const { standardUncertainty, degreesOfFreedom } = value
  if (!(standardUncertainty > 0) || !(degreesOfFreedom > 0)) return null
  const whole = combine(lines).standardUncertainty
  const coverage = coverageFactor(degreesOfFreedom)
  const shared = lines
    .map((line) => ({ ...line, share: (line.standardUncertainty / whole) ** 2 }))
    .sort((one, other) => other.share - one.share)
  return {
    lines: shared,
    standardUncertainty,
    degreesOfFreedom,
    coverage,
    expanded: coverage * standardUncertainty,
    dominant: dominantWords(shared),
  }
}

const TO_DO: Readonly<Record<BudgetName, string>> = {
  reference: 'Fresher or better references would help; more points with the same ones would not.',
  fit: 'One more point, far from the others, would help most.',
  repeatability: 'Holding stiller and longer would help most.',
  resolution: 'A finer signal would help; more points would not.',
  temperature: 'Measuring the sample’s temperature better would help most.',
  drift: 'Calibrating nearer to the fieldwork would help most.',
}

function dominantWords(lines: readonly (BudgetLine & { share: number })[]): string {
  const first = lines[0]
  if (!first) return ''
  const percent = Math.round(first.share * 100)
  const lead = percent >= 50 ? 'Most of it' : 'The largest part of it'
  return `${lead} (${percent} %) comes from ${BUDGET_WORDS[first.name]}. ${TO_DO[first.name]}`
}
