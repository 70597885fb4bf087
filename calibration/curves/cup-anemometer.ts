import { type CalibrationLine, fitCalibrationLine } from '../fit/calibration-line.ts'
import type { BudgetLine, Fitted, Remark } from '../fitted.ts'
import { makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { CupAnemometerRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fromHalfWidth, fromStep } from '../uncertainty/rectangular.ts'
import { rootSumOfSquares, statedTerms } from '../uncertainty/stated-terms.ts'
import { judgeCup } from './cup-verdict.ts'
import { type CupFactor, IMPOSSIBLE_WIND_METRES_PER_SECOND, refuseFactor, windFromHertz } from './cup-wind.ts'
import { lineUncertainty } from './line-uncertainty.ts'

const CALM: readonly Remark[] = Object.freeze(['calm'] as const)

/**
 * Pulses of a cup anemometer to wind speed, m/s, from a sheet's offset and slope or fitted to pairs.
 * @param recipe  `pairs` (two or more, different speeds) win over offset and slope
 * @returns a value of 0 with remark `calm` when there are no pulses; a refusal for negative pulses
 * @see ISO 17713-1:2007; IEC 61400-12-1 annex on cup anemometer calibration
 */
export function fitCupAnemometer(recipe: CupAnemometerRecipe): Fitted | Refusal {
  if (recipe.countSeconds !== undefined && !(recipe.countSeconds > 0)) {
    return refuse(
      'E_INTERVAL',
      `Pulses are counted over ${recipe.countSeconds} s; an interval is longer than 0 s.`,
    )
  }
  const pairs = recipe.pairs ?? []
  if (pairs.some((pair) => pair.hertz < 0 || pair.metresPerSecond < 0)) {
    return refuse('E_COUNT', 'A pair has a negative frequency or speed; both are 0 or more.')
  }
  if (pairs.length === 0) return fromSheet(recipe)
  // a standing cup says nothing about the factor
  const turning = pairs.filter((pair) => pair.hertz > 0)
  const calibration = fitCalibrationLine(turning.map((pair) => ({ x: pair.metresPerSecond, y: pair.hertz })))
  if (isRefusal(calibration)) return calibration
  return fromPairs(recipe, calibration, turning)
}

function fromSheet(recipe: CupAnemometerRecipe): Fitted | Refusal {
  const { offsetMetresPerSecond, slopeMetresPerSecondPerHertz } = recipe
  if (offsetMetresPerSecond === undefined || slopeMetresPerSecondPerHertz === undefined) {
    return refuse(
      'E_RECIPE',
      'Give the cup offset and slope from the sheet, or pairs of frequency and reference speed.',
    )
  }
  const factor = { offsetMetresPerSecond, slopeMetresPerSecondPerHertz }
  const bad = refuseFactor(factor)
  if (bad !== null) return bad
  return describe(recipe, factor, null, [])
}

function fromPairs(
  recipe: CupAnemometerRecipe,
  calibration: CalibrationLine,
  pairs: readonly { hertz: number; metresPerSecond: number }[],
): Fitted | Refusal {
  const factor = {
    offsetMetresPerSecond: calibration.xAt(0),
    slopeMetresPerSecondPerHertz: 1 / calibration.line.slope,
  }
  const bad = refuseFactor(factor)
  if (bad !== null) return bad
  return describe(recipe, factor, calibration, pairs)
}

function describe(
  recipe: CupAnemometerRecipe,
  factor: CupFactor,
  calibration: CalibrationLine | null,
  pairs: readonly { hertz: number; metresPerSecond: number }[],
): Fitted {
  const seconds = recipe.countSeconds ?? 1
  const counted = recipe.countSeconds !== undefined
  const hertz = pairs.map((pair) => pair.hertz)
  const range = pairs.length === 0 ? null : { low: Math.min(...hertz), high: Math.max(...hertz) }
  const fit = calibration === null ? null : lineUncertainty(calibration, {})
  const threshold = recipe.startingThresholdMetresPerSecond
  // anything between standing still and the starting threshold gives no pulses
  const calmUncertainty = threshold === undefined ? null : fromHalfWidth(threshold)
  const fixed = fixedTerms(recipe, factor)
  const budget = (frequency: number): BudgetLine[] => {
    if (frequency === 0) return statedTerms({ reference: calmUncertainty ?? undefined })
    return [...(fit === null ? [] : fit.budget(windFromHertz(frequency, factor), 1)), ...fixed]
  }
  const fixedVariance = rootSumOfSquares(fixed) ** 2
  const sheetUncertainty =
    recipe.standardUncertaintyMetresPerSecond === undefined ? null : Math.sqrt(fixedVariance)
  return makeFitted({
    kind: 'cup-anemometer',
    unit: 'm/s',
    signalUnits: [counted ? 'count' : 'Hz'],
    ...judgeCup(calibration),
    facts: {
      offsetMetresPerSecond: factor.offsetMetresPerSecond,
      slopeMetresPerSecondPerHertz: factor.slopeMetresPerSecondPerHertz,
      startingThresholdMetresPerSecond: threshold ?? null,
      countSeconds: recipe.countSeconds ?? null,
      pairCount: pairs.length,
    },
    signalRange: range === null ? null : { low: range.low * seconds, high: range.high * seconds },
    residuals: pairs.map((pair) => ({
      signal: pair.hertz * seconds,
      reference: pair.metresPerSecond,
      residual: windFromHertz(pair.hertz, factor) - pair.metresPerSecond,
    })),
    evaluate(signal) {
      if (signal < 0) return refuse('E_COUNT', `${signal} pulses cannot be; was the counter reset?`)
      if (signal === 0) {
        return {
          value: 0,
          standardUncertainty: calmUncertainty,
          degreesOfFreedom: Number.POSITIVE_INFINITY,
          remarks: CALM,
        }
      }
      const frequency = signal / seconds
      const value = windFromHertz(frequency, factor)
      const remarks =
        (range === null || (frequency >= range.low && frequency <= range.high)) &&
        value <= IMPOSSIBLE_WIND_METRES_PER_SECOND &&
        value >= 0
          ? NO_REMARKS
          : windRemarks(value)
      if (fit === null) {
        return {
          value,
          standardUncertainty: sheetUncertainty,
          degreesOfFreedom: Number.POSITIVE_INFINITY,
          remarks,
        }
      }
      const standard = fit.at(value, 1, fixedVariance)
      return {
        value,
        standardUncertainty: Number.isNaN(standard) ? null : standard,
        degreesOfFreedom: fit.lastDegreesOfFreedom(),
        remarks,
      }
    },
    budget: (signal) => budget(signal / seconds),
    invert(value) {
      if (value === 0) return 0
      const frequency = (value - factor.offsetMetresPerSecond) / factor.slopeMetresPerSecondPerHertz
      return frequency > 0 ? frequency * seconds : null
    },
  })
}

function fixedTerms(recipe: CupAnemometerRecipe, factor: CupFactor): BudgetLine[] {
  // whole pulses only: one pulse per interval is the smallest step
  const step = recipe.countSeconds === undefined ? (recipe.signalResolution ?? 0) : 1 / recipe.countSeconds
  return statedTerms({
    reference: recipe.standardUncertaintyMetresPerSecond,
    resolution: fromStep(step * factor.slopeMetresPerSecondPerHertz),
    drift: recipe.driftStandardUncertainty,
  })
}

function windRemarks(value: number): readonly Remark[] {
  // a negative offset can carry a slow cup below nothing
  const impossible = value > IMPOSSIBLE_WIND_METRES_PER_SECOND || value < 0
  return impossible ? ['extrapolated', 'impossible'] : ['extrapolated']
}
