import { z } from 'zod'
import { nernstSlope } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const nernstSlopeComputation = defineComputation({
  name: 'nernst-slope',
  title: 'Theoretical slope of a pH electrode at a temperature',
  source: 'ln(10)·R·T/F with CODATA 2018 R and F; Buck et al. 2002, Pure Appl. Chem. 74(11), 2169–2200',
  units: { temperatureCelsius: '°C', millivoltPerPh: 'mV' },
  input: z.object({ temperatureCelsius: number.gt(-273.15) }),
  output: z.object({ millivoltPerPh: number }),
  run: ({ temperatureCelsius }) => ({ millivoltPerPh: nernstSlope(temperatureCelsius) }),
})
