import { z } from 'zod'
import { phFromMillivolt, refuse } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const phFromSignal = defineComputation({
  name: 'ph-from-signal',
  title: 'pH of a sample from the electrode’s millivolts, compensated for the sample’s temperature',
  source: 'Buck et al. 2002, Pure Appl. Chem. 74(11), 2169–2200',
  units: {
    'calibration.slopePercent': '% of the theoretical slope',
    'calibration.offsetMillivolt': 'mV at pH 7',
    millivolt: 'mV',
    temperatureCelsius: '°C',
    ph: 'pH',
  },
  input: z.object({
    calibration: z.object({ slopePercent: number, offsetMillivolt: number }),
    millivolt: number,
    temperatureCelsius: number,
  }),
  output: z.object({ ph: number }),
  run({ calibration, millivolt, temperatureCelsius }) {
    if (!(calibration.slopePercent > 0)) {
      return refuse(
        'E_SLOPE_ZERO',
        `The slope is ${calibration.slopePercent} %; a working electrode has one above 0.`,
      )
    }
    if (temperatureCelsius < -5 || temperatureCelsius > 100) {
      return refuse(
        'E_TEMPERATURE_RANGE',
        `The sample is stated at ${temperatureCelsius} °C; soil water is −5 to 100.`,
      )
    }
    return { ph: phFromMillivolt(millivolt, calibration, temperatureCelsius) }
  },
})
