import type { CalibrationLine } from '../fit/calibration-line.ts'
import type { Conditions, Fitted, Remark, Residual } from '../fitted.ts'
import { makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { PhElectrodeRecipe } from '../recipe.ts'
import { refuse } from '../refusal.ts'
import { lineUncertainty } from './line-uncertainty.ts'
import { ISOPOTENTIAL_PH, KELVIN_AT_ZERO_CELSIUS, nernstSlope } from './nernst.ts'
import { DEFAULT_PH_CRITERIA } from './ph-criteria.ts'
import type { ResolvedPhPoint } from './ph-points.ts'
import { judgePhElectrode } from './ph-verdict.ts'

/** A sample in which a pH can be read is liquid water, °C. */
const SAMPLE_LOW_CELSIUS = -5
const SAMPLE_HIGH_CELSIUS = 100

/** The fitted electrode: facts, verdict, and pH ⇄ signal at the temperature of the sample. */
export function phCurve(
  recipe: PhElectrodeRecipe,
  calibration: CalibrationLine,
  fitPoints: readonly ResolvedPhPoint[],
  checkPoints: readonly ResolvedPhPoint[],
): Fitted {
  const gain = recipe.amplifier?.gain ?? 1
  const bias = recipe.amplifier?.biasMillivolt ?? 0
  const gainKnown = recipe.signalIs !== 'amplified-unknown-gain'
  const { slope: share, intercept: offset } = calibration.line
  const temperature = mean(fitPoints.map((point) => point.given.temperatureCelsius))
  const fitPhs = fitPoints.map((point) => point.ph)
  const low = Math.min(...fitPhs) - 1e-9
  const high = Math.max(...fitPhs) + 1e-9
  const readPh = (electrode: number, celsius: number) =>
    ISOPOTENTIAL_PH - (electrode - offset) / (share * nernstSlope(celsius))
  const errorOf = (point: ResolvedPhPoint) =>
    readPh(point.electrodeMillivolt, point.given.temperatureCelsius) - point.ph
  const residuals: Residual[] = fitPoints.map((point) => ({
    signal: point.given.millivolt,
    reference: point.ph,
    residual: errorOf(point),
  }))
  const checkErrorsPh = checkPoints.map(errorOf)
  const signals = fitPoints.map((point) => point.given.millivolt)
  const { verdict, advice } = judgePhElectrode(
    {
      fitPoints,
      slopePercent: gainKnown ? 100 * share : null,
      offsetMillivolt: offset,
      fitErrorsPh: residuals.map((each) => each.residual),
      checkErrorsPh,
      secondsToStable: [...fitPoints, ...checkPoints].flatMap((point) => point.given.secondsToStable ?? []),
      forced: fitPoints.some((point) => point.given.forced === true),
      soilPh: recipe.soilPh,
    },
    { ...DEFAULT_PH_CRITERIA, ...recipe.criteria },
  )
  const uncertainty = lineUncertainty(calibration, {
    ...(recipe.signalResolution === undefined ? {} : { signalResolution: recipe.signalResolution / gain }),
    ...(recipe.driftStandardUncertainty === undefined
      ? {}
      : { driftStandardUncertainty: recipe.driftStandardUncertainty }),
  })
  const temperatureOf = (conditions: Conditions | undefined) => conditions?.temperatureCelsius ?? temperature
  /** one kelvin of error in the sample's temperature, in pH: the slope is proportional to T */
  const temperatureTerm = (ph: number, celsius: number, conditions: Conditions | undefined) =>
    ((ph - ISOPOTENTIAL_PH) * (conditions?.temperatureStandardUncertaintyCelsius ?? 0)) /
    (celsius + KELVIN_AT_ZERO_CELSIUS)
  return makeFitted({
    kind: 'ph-electrode',
    unit: 'pH',
    signalUnits: ['mV', 'V'],
    verdict,
    advice,
    facts: {
      slopeMillivoltPerPh: -share * nernstSlope(temperature) * gain,
      slopePercent: gainKnown ? 100 * share : null,
      offsetMillivolt: offset,
      isopotentialPh: ISOPOTENTIAL_PH,
      zeroPointPh: readPh(0, temperature),
      theoreticalSlopeMillivoltPerPh: -nernstSlope(temperature),
      calibrationTemperatureCelsius: temperature,
      bufferCount: fitPoints.length,
      largestResidualPh: Math.max(...residuals.map((each) => Math.abs(each.residual))),
      largestCheckErrorPh: checkErrorsPh.length === 0 ? null : Math.max(...checkErrorsPh.map(Math.abs)),
    },
    signalRange: { low: Math.min(...signals), high: Math.max(...signals) },
    residuals,
    evaluate(signal, conditions) {
      const celsius = temperatureOf(conditions)
      if (!(celsius >= SAMPLE_LOW_CELSIUS && celsius <= SAMPLE_HIGH_CELSIUS)) {
        return refuse(
          'E_TEMPERATURE_RANGE',
          `The sample is stated at ${celsius} °C; soil water is between −5 and 100.`,
        )
      }
      const ideal = ((signal - bias) / gain - offset) / share
      const perPh = nernstSlope(celsius)
      const ph = ISOPOTENTIAL_PH - ideal / perPh
      const warmth = temperatureTerm(ph, celsius, conditions)
      const standard = uncertainty.at(ideal, 1 / perPh, warmth * warmth)
      return {
        value: ph,
        standardUncertainty: standard,
        degreesOfFreedom: uncertainty.lastDegreesOfFreedom(),
        remarks: phRemarks(ph, ph < low || ph > high, conditions?.temperatureCelsius === undefined),
      }
    },
    budget(signal, conditions) {
      const celsius = temperatureOf(conditions)
      const perPh = nernstSlope(celsius)
      const ideal = ((signal - bias) / gain - offset) / share
      const lines = uncertainty.budget(ideal, 1 / perPh)
      const warmth = Math.abs(temperatureTerm(ISOPOTENTIAL_PH - ideal / perPh, celsius, conditions))
      if (warmth > 0) {
        lines.push({
          name: 'temperature',
          standardUncertainty: warmth,
          degreesOfFreedom: Number.POSITIVE_INFINITY,
        })
      }
      return lines
    },
    invert(ph, conditions) {
      return (offset - share * nernstSlope(temperatureOf(conditions)) * (ph - ISOPOTENTIAL_PH)) * gain + bias
    },
  })
}

const UNCOMPENSATED: readonly Remark[] = Object.freeze(['not-temperature-compensated'] as const)

function phRemarks(ph: number, extrapolated: boolean, uncompensated: boolean): readonly Remark[] {
  if (!extrapolated) return uncompensated ? UNCOMPENSATED : NO_REMARKS
  const remarks: Remark[] = ['extrapolated']
  if (ph < 0 || ph > 14) remarks.push('impossible')
  if (uncompensated) remarks.push('not-temperature-compensated')
  return remarks
}

function mean(numbers: readonly number[]): number {
  return numbers.reduce((sum, each) => sum + each, 0) / numbers.length
}
