import type { Fitted } from '../fitted.ts'
import { makeFitted } from '../make-fitted.ts'
import { refuse } from '../refusal.ts'
import { nernstSlope } from './nernst.ts'
import type { ResolvedPhPoint } from './ph-points.ts'

/**
 * An electrode that gives exactly the same answer in every buffer: kept as a failed calibration, reads nothing.
 */
export function deadElectrode(fitPoints: readonly ResolvedPhPoint[]): Fitted {
  const first = fitPoints[0]!
  return makeFitted({
    kind: 'ph-electrode',
    unit: 'pH',
    signalUnits: ['mV', 'V'],
    verdict: 'fail',
    advice: [
      {
        code: 'same-answer',
        text:
          `The probe gives the same answer, ${first.given.millivolt} mV, in every buffer: the bulb is cracked, or the probe is not connected. ` +
          'Check the plug and cable; if they are sound, replace the electrode.',
      },
    ],
    facts: {
      slopeMillivoltPerPh: 0,
      slopePercent: 0,
      offsetMillivolt: first.electrodeMillivolt,
      isopotentialPh: 7,
      zeroPointPh: null,
      theoreticalSlopeMillivoltPerPh: -nernstSlope(first.given.temperatureCelsius),
      calibrationTemperatureCelsius: first.given.temperatureCelsius,
      bufferCount: fitPoints.length,
      largestResidualPh: null,
      largestCheckErrorPh: null,
    },
    signalRange: { low: first.given.millivolt, high: first.given.millivolt },
    residuals: [],
    evaluate: () =>
      refuse(
        'E_SLOPE_ZERO',
        'This electrode gave the same answer in every buffer, so its signal says nothing about pH.',
      ),
    budget: () => [],
    invert: () => null,
  })
}
