import { z } from 'zod'
import { fitCalibration, isRefusal, type LightCountsRecipe } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const illuminanceFromCounts = defineComputation({
  name: 'illuminance-from-counts',
  title: 'Illuminance from the counts of a digital light sensor',
  source: 'BH1750FVI technical note 2009.04 Rev. B; TSL2560/TSL2561 data sheet TAOS059K, April 2007, page 22',
  units: {
    counts: 'count',
    infraredCounts: 'count',
    integration: 'ms',
    lux: 'lx',
    standardUncertaintyLux: 'lx',
  },
  input: z.object({
    sensor: z.enum(['bh1750', 'tsl2561']),
    counts: number,
    infraredCounts: number.optional(),
    mtreg: number.optional(),
    mode: z.union([z.literal(1), z.literal(2)]).optional(),
    package: z.enum(['T', 'CS']).optional(),
    gain: z.union([z.literal(1), z.literal(16)]).optional(),
    integration: z.union([z.literal(13.7), z.literal(101), z.literal(402)]).optional(),
    factor: number.optional(),
  }),
  output: z.object({ lux: number, saturated: z.boolean(), standardUncertaintyLux: number.nullable() }),
  run({ counts, infraredCounts, ...settings }) {
    const stated = Object.fromEntries(Object.entries(settings).filter(([, setting]) => setting !== undefined))
    const fitted = fitCalibration({ kind: 'light-counts', ...stated } as LightCountsRecipe)
    if (isRefusal(fitted)) return fitted
    const value = fitted.valueAt(counts, infraredCounts === undefined ? {} : { infraredCounts })
    if (isRefusal(value)) return value
    return {
      lux: value.value,
      saturated: value.remarks.includes('saturated'),
      standardUncertaintyLux: value.standardUncertainty,
    }
  },
})
