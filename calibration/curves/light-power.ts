import { fitCalibrationLine } from '../fit/calibration-line.ts'
import type { BudgetLine, Fitted, Remark } from '../fitted.ts'
import { EXTRAPOLATED, makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { LightPowerRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fromStep } from '../uncertainty/rectangular.ts'
import { rootSumOfSquares, statedTerms } from '../uncertainty/stated-terms.ts'
import { alikeUnits } from '../units.ts'
import { refuseLightPoints } from './light-span.ts'
import { lineUncertainty } from './line-uncertainty.ts'
import { isAtFullScale } from './saturation.ts'

const SATURATED: readonly Remark[] = Object.freeze(['saturated'] as const)

/**
 * Signal of a photoresistor to illuminance, lx: ln signal = a + γ·ln lux, fitted against a reference meter.
 * The law holds for the resistance; for a divider's counts it holds over a limited range, which the residuals show.
 * @param recipe  two or more points, signal and lux above 0
 * @returns a refusal at a signal of 0 or less; relative uncertainty from the scatter on the log scale
 * @see R = R₁·E^−γ, the resistance–illuminance law of cadmium sulfide photoresistor data sheets
 */
export function fitLightPower(recipe: LightPowerRecipe): Fitted | Refusal {
  const bad = refuseLightPoints(recipe.points, undefined, recipe.fullScaleSignal)
  if (bad !== null) return bad
  const dark = recipe.points.find((point) => point.lux <= 0 || point.signal <= 0)
  if (dark !== undefined) {
    return refuse(
      'E_SETTING',
      `The point ${dark.signal} at ${dark.lux} lx has no logarithm; both must be above 0.`,
    )
  }
  const calibration = fitCalibrationLine(
    recipe.points.map((point) => ({ x: Math.log(point.lux), y: Math.log(point.signal) })),
  )
  if (isRefusal(calibration)) return calibration
  const uncertainty = lineUncertainty(calibration, {})
  const signals = recipe.points.map((point) => point.signal)
  const [low, high] = [Math.min(...signals), Math.max(...signals)]
  const { slope, intercept } = calibration.line
  const luxAt = (signal: number) => Math.exp(calibration.xAt(Math.log(signal)))
  const extras = (signal: number, lux: number): BudgetLine[] =>
    statedTerms({
      resolution: fromStep(((recipe.signalResolution ?? 0) * lux) / (slope * signal)),
      drift: recipe.driftStandardUncertainty,
    })
  return makeFitted({
    kind: 'light-power',
    unit: 'lx',
    signalUnits: recipe.signalUnit === undefined ? [] : alikeUnits(recipe.signalUnit),
    verdict: 'pass',
    advice: calibration.uncertaintyKnown
      ? []
      : [
          {
            code: 'uncertainty-unknown',
            text: 'Two lights give a curve but not its uncertainty. Take a third.',
          },
        ],
    facts: { gamma: slope, signalAtOneLux: Math.exp(intercept), pointCount: recipe.points.length },
    signalRange: { low, high },
    residuals: recipe.points.map((point) => ({
      signal: point.signal,
      reference: point.lux,
      residual: luxAt(point.signal) - point.lux,
    })),
    evaluate(signal) {
      if (signal <= 0)
        return refuse('E_SIGNAL_RANGE', `A signal of ${signal} has no logarithm; check the wiring.`)
      const lux = luxAt(signal)
      const more = rootSumOfSquares(extras(signal, lux)) ** 2
      const standard = uncertainty.at(Math.log(lux), lux, more)
      return {
        value: lux,
        standardUncertainty: Number.isNaN(standard) ? null : standard,
        degreesOfFreedom: uncertainty.lastDegreesOfFreedom(),
        remarks: isAtFullScale(signal, recipe.fullScaleSignal, slope)
          ? SATURATED
          : signal < low || signal > high
            ? EXTRAPOLATED
            : NO_REMARKS,
      }
    },
    budget(signal) {
      if (signal <= 0) return []
      const lux = luxAt(signal)
      return [...uncertainty.budget(Math.log(lux), lux), ...extras(signal, lux)]
    },
    invert: (lux) => (lux > 0 ? Math.exp(intercept + slope * Math.log(lux)) : null),
  })
}
