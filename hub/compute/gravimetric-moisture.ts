import { z } from 'zod'
import { soilWater } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const gravimetricMoisture = defineComputation({
  name: 'gravimetric-moisture',
  title: 'Water content of a ring of soil weighed before and after the oven',
  source: 'ISO 11465:1993 (dry-mass basis); ISO 11272 (bulk density); ISO 16586:2003 (volumetric)',
  units: {
    wetGram: 'g with tin',
    dryGram: 'g with tin',
    tinGram: 'g',
    ringCubicCentimetre: 'cm³',
    gravimetric: 'g/g of dry soil',
    wetBasis: 'g/g of fresh soil',
    bulkDensity: 'g/cm³',
    volumetricWaterContent: 'm³/m³',
  },
  input: z.object({ wetGram: number, dryGram: number, tinGram: number, ringCubicCentimetre: number }),
  output: z.object({
    gravimetric: number,
    wetBasis: number,
    bulkDensity: number,
    volumetricWaterContent: number,
  }),
  run: (input) => answer(soilWater(input), (water) => ({ ...water })),
})
