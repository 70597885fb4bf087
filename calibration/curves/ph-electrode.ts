import { type CalibrationPoint, fitCalibrationLine } from '../fit/calibration-line.ts'
import type { Fitted } from '../fitted.ts'
import type { PhElectrodeRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fromHalfWidth } from '../uncertainty/rectangular.ts'
import { nernstSlope } from './nernst.ts'
import { SAME_BUFFER_PH } from './ph-criteria.ts'
import { phCurve } from './ph-curve.ts'
import { deadElectrode } from './ph-dead-electrode.ts'
import { type ResolvedPhPoint, resolvePhPoints } from './ph-points.ts'

/** A held buffer reading spans at most 0.02 pH, which stands for its scatter when none was recorded. */
const HELD_SPAN_PH = 0.02

/**
 * Millivolts of a pH electrode to pH, by the Nernst line through two, three or more buffers.
 *
 * The line is fitted against what an ideal electrode would give in each buffer at its own temperature, so buffers
 * at unlike temperatures may be mixed; its slope is the share of the theoretical slope, its intercept the offset at
 * pH 7. A reading is pH = 7 − (E − offset) / (share · S₀(T)), T that of the sample.
 * @returns a refusal for fewer than two buffers, one buffer twice, an unknown buffer or one outside its table;
 *   a poor electrode or swapped buffers give verdict `fail` with advice
 * @see Buck et al. 2002, Pure Appl. Chem. 74(11), 2169–2200; JCGM 100:2008 Annex H.3 for the uncertainty of the fit
 * @example +6.0 mV in pH 7.04 and +176.3 mV in pH 4.00 at 15 °C: −56.02 mV per pH, 98.0 %, offset +8.2 mV
 */
export function fitPhElectrode(recipe: PhElectrodeRecipe): Fitted | Refusal {
  const resolved = resolvePhPoints(recipe)
  if (isRefusal(resolved)) return resolved
  const fitPoints = resolved.filter((point) => point.given.role !== 'check')
  const checkPoints = resolved.filter((point) => point.given.role === 'check')
  if (fitPoints.length < 2) {
    return refuse(
      'E_POINTS_FEW',
      `A pH electrode needs at least two buffers; ${fitPoints.length} given for the fit.`,
    )
  }
  const phs = fitPoints.map((point) => point.ph)
  if (Math.max(...phs) - Math.min(...phs) < SAME_BUFFER_PH) {
    return refuse(
      'E_SAME_REFERENCE',
      `The same buffer twice: the pH of the points (${phs.map((ph) => ph.toFixed(2)).join(', ')}) do not differ. ` +
        'Measure a second buffer at least 2 pH away.',
    )
  }
  const calibration = fitCalibrationLine(
    fitPoints.map((point) => asCalibrationPoint(point, recipe.amplifier?.gain ?? 1)),
  )
  if (isRefusal(calibration)) return deadElectrode(fitPoints)
  return phCurve(recipe, calibration, fitPoints, checkPoints)
}

function asCalibrationPoint({ given, ...point }: ResolvedPhPoint, gain: number): CalibrationPoint {
  const perPh = nernstSlope(given.temperatureCelsius)
  const common = {
    x: point.idealMillivolt,
    y: point.electrodeMillivolt,
    xUncertainty: point.phStandardUncertainty * perPh,
  }
  if (given.scatterMillivolt === undefined)
    return { ...common, scatterOfX: fromHalfWidth(HELD_SPAN_PH / 2) * perPh }
  return { ...common, scatter: Math.abs(given.scatterMillivolt / gain), n: given.n }
}
