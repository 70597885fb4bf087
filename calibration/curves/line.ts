import { type CalibrationLine, fitCalibrationLine } from '../fit/calibration-line.ts'
import type { Fitted } from '../fitted.ts'
import { EXTRAPOLATED, makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { LineRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fromStep } from '../uncertainty/rectangular.ts'
import { rootSumOfSquares, statedTerms } from '../uncertainty/stated-terms.ts'
import { alikeUnits } from '../units.ts'
import { lineUncertainty } from './line-uncertainty.ts'

/**
 * Any probe with a straight answer: value = slope · signal + intercept, from a sheet or through reference points.
 * @param recipe  `points` (two or more different references) win over slope and intercept
 * @returns uncertainty null when neither scatter is stated nor a third point shows it
 * @see ISO 11095:1996, linear calibration using reference materials
 */
export function fitLineRecipe(recipe: LineRecipe): Fitted | Refusal {
  const points = recipe.points ?? []
  if (points.length === 0) return fromSheet(recipe)
  const calibration = fitCalibrationLine(
    points.map((point) => ({
      x: point.reference,
      y: point.signal,
      xUncertainty: point.standardUncertainty,
      scatter: point.scatter,
      n: point.n,
    })),
  )
  if (isRefusal(calibration)) return calibration
  return throughPoints(recipe, calibration)
}

function throughPoints(recipe: LineRecipe, calibration: CalibrationLine): Fitted {
  const points = recipe.points ?? []
  const signals = points.map((point) => point.signal)
  const range = { low: Math.min(...signals), high: Math.max(...signals) }
  const uncertainty = lineUncertainty(calibration, recipe)
  const residuals = points.map((point) => ({
    signal: point.signal,
    reference: point.reference,
    residual: calibration.xAt(point.signal) - point.reference,
  }))
  const unknown = !calibration.uncertaintyKnown
  return makeFitted({
    kind: 'line',
    unit: recipe.unit,
    signalUnits: recipe.signalUnit === undefined ? [] : alikeUnits(recipe.signalUnit),
    verdict: 'pass',
    advice: unknown
      ? [
          {
            code: 'uncertainty-unknown',
            text: 'Two points give a line but not its uncertainty. Measure a third reference, or state the scatter.',
          },
        ]
      : [],
    facts: {
      slope: 1 / calibration.line.slope,
      intercept: calibration.xAt(0),
      pointCount: points.length,
      largestResidual: Math.max(...residuals.map((each) => Math.abs(each.residual))),
    },
    signalRange: range,
    residuals,
    evaluate(signal) {
      const value = calibration.xAt(signal)
      const standard = uncertainty.at(value, 1, 0)
      return {
        value,
        standardUncertainty: Number.isNaN(standard) ? null : standard,
        degreesOfFreedom: uncertainty.lastDegreesOfFreedom(),
        remarks: signal < range.low || signal > range.high ? EXTRAPOLATED : NO_REMARKS,
      }
    },
    budget: (signal) => uncertainty.budget(calibration.xAt(signal), 1),
    invert: (value) => calibration.line.intercept + calibration.line.slope * value,
  })
}

function fromSheet(recipe: LineRecipe): Fitted | Refusal {
  const { slope, intercept } = recipe
  if (slope === undefined || intercept === undefined) {
    return refuse('E_RECIPE', 'Give reference points, or slope and intercept from the probe’s sheet.')
  }
  if (slope === 0) return refuse('E_SLOPE_ZERO', 'The slope is 0, so every signal would give the same value.')
  const lines = statedTerms({
    reference: recipe.standardUncertainty,
    resolution: fromStep((recipe.signalResolution ?? 0) * slope),
    drift: recipe.driftStandardUncertainty,
  })
  const standardUncertainty = recipe.standardUncertainty === undefined ? null : rootSumOfSquares(lines)
  return makeFitted({
    kind: 'line',
    unit: recipe.unit,
    signalUnits: recipe.signalUnit === undefined ? [] : alikeUnits(recipe.signalUnit),
    verdict: 'pass',
    advice: [
      {
        code: 'sheet-values',
        text: 'Slope and intercept come from a sheet. Check them against a known reference.',
      },
    ],
    facts: { slope, intercept, pointCount: 0, largestResidual: null },
    signalRange: null,
    residuals: [],
    evaluate: (signal) => ({
      value: slope * signal + intercept,
      standardUncertainty,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      remarks: NO_REMARKS,
    }),
    budget: () => lines,
    invert: (value) => (value - intercept) / slope,
  })
}
