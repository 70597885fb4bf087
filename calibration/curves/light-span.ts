import { fitCalibrationLine } from '../fit/calibration-line.ts'
import type { Advice, Fitted, Remark } from '../fitted.ts'
import { EXTRAPOLATED, makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { LightSpanRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { alikeUnits } from '../units.ts'
import { lineUncertainty } from './line-uncertainty.ts'
import { isAtFullScale } from './saturation.ts'

const SATURATED: readonly Remark[] = Object.freeze(['saturated'] as const)

/**
 * Signal of a light sensor with a straight answer to illuminance, lx, against a reference meter.
 * @param recipe  two or more points, one of them in the dark; a reference at its full scale is refused
 * @see ISO 11095:1996, linear calibration using reference materials
 */
export function fitLightSpan(recipe: LightSpanRecipe): Fitted | Refusal {
  const bad = refuseLightPoints(recipe.points, recipe.referenceFullScaleLux, recipe.fullScaleSignal)
  if (bad !== null) return bad
  const relative = recipe.referenceRelativeStandardUncertainty ?? 0
  const calibration = fitCalibrationLine(
    recipe.points.map((point) => ({ x: point.lux, y: point.signal, scatter: recipe.signalScatter })),
  )
  if (isRefusal(calibration)) return calibration
  const signals = recipe.points.map((point) => point.signal)
  const [low, high] = [Math.min(...signals), Math.max(...signals)]
  const uncertainty = lineUncertainty(calibration, recipe)
  return makeFitted({
    kind: 'light-span',
    unit: 'lx',
    signalUnits: recipe.signalUnit === undefined ? [] : alikeUnits(recipe.signalUnit),
    verdict: 'pass',
    advice: calibration.uncertaintyKnown ? [] : [UNKNOWN],
    facts: {
      luxPerSignal: 1 / calibration.line.slope,
      darkSignal: calibration.line.intercept,
      pointCount: recipe.points.length,
    },
    signalRange: { low, high },
    residuals: recipe.points.map((point) => ({
      signal: point.signal,
      reference: point.lux,
      residual: calibration.xAt(point.signal) - point.lux,
    })),
    evaluate(signal) {
      const lux = calibration.xAt(signal)
      // one meter for all points: its error is common to them and grows with the reading
      const meter = relative * lux
      const standard = uncertainty.at(lux, 1, meter * meter)
      return {
        value: lux,
        standardUncertainty: Number.isNaN(standard) ? null : standard,
        degreesOfFreedom: uncertainty.lastDegreesOfFreedom(),
        remarks: isAtFullScale(signal, recipe.fullScaleSignal, calibration.line.slope)
          ? SATURATED
          : signal < low || signal > high
            ? EXTRAPOLATED
            : NO_REMARKS,
      }
    },
    budget(signal) {
      const lux = calibration.xAt(signal)
      const lines = uncertainty.budget(lux, 1)
      if (relative > 0) {
        const standardUncertainty = Math.abs(relative * lux)
        lines.unshift({ name: 'reference', standardUncertainty, degreesOfFreedom: Number.POSITIVE_INFINITY })
      }
      return lines
    },
    invert: (lux) => calibration.line.intercept + calibration.line.slope * lux,
  })
}

const UNKNOWN: Advice = {
  code: 'uncertainty-unknown',
  text: 'Two points give a line but not its uncertainty. Take a third light, or state the scatter of the signal.',
}

/** Reference points of light that cannot be: negative, or read by a meter or sensor that was at full scale. */
export function refuseLightPoints(
  points: readonly { signal: number; lux: number }[],
  referenceFullScaleLux: number | undefined,
  fullScaleSignal: number | undefined,
): Refusal | null {
  if (points.length < 2)
    return refuse('E_POINTS_FEW', `A light sensor needs at least two lights; ${points.length} given.`)
  const negative = points.find((point) => point.lux < 0)
  if (negative !== undefined)
    return refuse('E_SETTING', `A reference of ${negative.lux} lx cannot be; light is 0 or more.`)
  const full = points.find((point) => point.lux >= (referenceFullScaleLux ?? Number.POSITIVE_INFINITY))
  if (full !== undefined) {
    return refuse(
      'E_REFERENCE_SATURATED',
      `The reference read ${full.lux} lx, its full scale, so the true light is unknown. Use less light or a higher range.`,
    )
  }
  const sensorFull = points.find((point) => point.signal >= (fullScaleSignal ?? Number.POSITIVE_INFINITY))
  if (sensorFull === undefined) return null
  return refuse(
    'E_SIGNAL_RANGE',
    `The sensor itself was at full scale (${sensorFull.signal}) at ${sensorFull.lux} lx. Use less light.`,
  )
}
