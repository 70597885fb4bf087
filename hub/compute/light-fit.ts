import { z } from 'zod'
import { fitCalibration, isRefusal } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const lightFit = defineComputation({
  name: 'light-fit',
  title:
    'Light signal to illuminance against a reference meter: straight, or a power law for a photoresistor',
  source: 'ISO 11095:1996; R = R₁·E^−γ of cadmium sulfide photoresistor data sheets',
  units: {
    'points.signal': 'any',
    'points.lux': 'lx',
    signal: 'as points',
    lux: 'lx',
    standardUncertaintyLux: 'lx',
  },
  input: z.object({
    law: z.enum(['straight', 'power']),
    points: z.array(z.object({ signal: number, lux: number })),
    signal: number,
    fullScaleSignal: number.optional(),
  }),
  output: z.object({ lux: number, standardUncertaintyLux: number.nullable(), remarks: z.array(z.string()) }),
  run({ law, points, signal, fullScaleSignal }) {
    const kind = law === 'straight' ? 'light-span' : 'light-power'
    const fitted = fitCalibration({
      kind,
      points,
      ...(fullScaleSignal === undefined ? {} : { fullScaleSignal }),
    })
    if (isRefusal(fitted)) return fitted
    const value = fitted.valueAt(signal)
    if (isRefusal(value)) return value
    return {
      lux: value.value,
      standardUncertaintyLux: value.standardUncertainty,
      remarks: [...value.remarks],
    }
  },
})
