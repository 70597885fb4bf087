import { z } from 'zod'
import { refuse, solveToppPermittivity, toppPermittivity } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const moisturePermittivity = defineComputation({
  name: 'moisture-permittivity',
  title: 'Relative permittivity of mineral soil from its volumetric water content',
  source: 'Topp, Davis & Annan 1980, Water Resources Research 16(3), 574–582, inverse polynomial',
  units: { volumetricWaterContent: 'm³/m³', permittivity: '1, the paper’s own fit', exactInverse: '1' },
  input: z.object({ volumetricWaterContent: number }),
  output: z.object({ permittivity: number, exactInverse: number }),
  run({ volumetricWaterContent: theta }) {
    if (theta < 0 || theta > 1) {
      return refuse('E_SETTING', `A water content of ${theta} m³/m³ cannot be; it lies between 0 and 1.`)
    }
    return { permittivity: toppPermittivity(theta), exactInverse: solveToppPermittivity(theta) }
  },
})
