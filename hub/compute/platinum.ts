import { z } from 'zod'
import { fitCalibration, isRefusal } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const platinum = defineComputation({
  name: 'platinum',
  title: 'Temperature from the resistance of a platinum thermometer',
  source: 'IEC 60751:2008',
  units: { ohm: 'Ω', ohmAtZero: 'Ω at 0 °C, 100 when not given', celsius: '°C' },
  input: z.object({ ohm: number, ohmAtZero: number.optional() }),
  output: z.object({ celsius: number }),
  run({ ohm, ohmAtZero = 100 }) {
    const fitted = fitCalibration({ kind: 'platinum', ohmAtZero })
    if (isRefusal(fitted)) return fitted
    const value = fitted.valueAt(ohm)
    return isRefusal(value) ? value : { celsius: value.value }
  },
})
