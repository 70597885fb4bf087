import { z } from 'zod'
import { fitCalibration, isRefusal } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const permittivityMoisture = defineComputation({
  name: 'permittivity-moisture',
  title: 'Volumetric water content of mineral soil from its relative permittivity',
  source: 'Topp, Davis & Annan 1980, Water Resources Research 16(3), 574–582, doi 10.1029/WR016i003p00574',
  units: { permittivity: '1', volumetricWaterContent: 'm³/m³', standardUncertainty: 'm³/m³' },
  input: z.object({ permittivity: number }),
  output: z.object({
    volumetricWaterContent: number,
    standardUncertainty: number.nullable(),
    remarks: z.array(z.string()),
  }),
  run({ permittivity }) {
    const fitted = fitCalibration({ kind: 'permittivity' })
    if (isRefusal(fitted)) return fitted
    const value = fitted.valueAt(permittivity)
    if (isRefusal(value)) return value
    return {
      volumetricWaterContent: value.value,
      standardUncertainty: value.standardUncertainty,
      remarks: [...value.remarks],
    }
  },
})
