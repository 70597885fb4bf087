import type { Recipe } from './recipe.ts'
import type { Refusal } from './refusal.ts'

export type Verdict = 'pass' | 'warn' | 'fail'

/** What is wrong and what to do about it, in plain English; the code is stable, the text may improve. */
export interface Advice {
  code: string
  text: string
}

/** Something to know about one value. The value itself is never clipped or replaced. */
export type Remark =
  | 'extrapolated'
  | 'saturated'
  | 'calm'
  | 'not-temperature-compensated'
  | 'fault-code'
  | 'impossible'
  | 'sensor-open'
  | 'sensor-shorted'

/** A value with its standard uncertainty (k = 1); null when the uncertainty cannot be known. */
export interface Value {
  value: number
  standardUncertainty: number | null
  /** effective degrees of freedom of the standard uncertainty; Infinity when it rests on stated limits alone */
  degreesOfFreedom: number
  remarks: readonly Remark[]
}

export interface Conditions {
  /** SenML unit of the signal; without it the first of `signalUnits` is taken */
  signalUnit?: string
  /** temperature of the sample, °C */
  temperatureCelsius?: number
  /** standard uncertainty of that temperature, °C */
  temperatureStandardUncertaintyCelsius?: number
  /** counts of the second, infrared channel of a two-channel light sensor */
  infraredCounts?: number
}

export type BudgetName = 'reference' | 'fit' | 'repeatability' | 'resolution' | 'temperature' | 'drift'

/** One line of the uncertainty budget, in the unit of the value. */
export interface BudgetLine {
  name: BudgetName
  standardUncertainty: number
  degreesOfFreedom: number
}

export interface Residual {
  signal: number
  reference: number
  /** value read by the fitted curve minus reference, in the unit of the value */
  residual: number
}

/** A fitted calibration: signal to value, value to signal, and how far to trust it. */
export interface Fitted {
  kind: Recipe['kind']
  /** SenML unit of the value */
  unit: string
  /** SenML units the signal may come in, the first being the one the curve is fitted in; empty: taken as it comes */
  signalUnits: string[]
  verdict: Verdict
  advice: Advice[]
  /** numbers worth showing; the unit is in the name */
  facts: Record<string, number | string | null>
  /** span of the reference points in the fitted signal's unit; null when there are none */
  signalRange: { low: number; high: number } | null
  residuals: Residual[]
  budget(signal: number, conditions?: Conditions): BudgetLine[]
  valueAt(signal: number, conditions?: Conditions): Value | Refusal
  /** the signal, in the first of `signalUnits`, that would give this value; null when there is none or many */
  signalAt(value: number, conditions?: Conditions): number | null
}
