import { z } from 'zod'
import { fitCalibration, isRefusal } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { advice, number, verdict } from './fields.ts'

export const waterContentFit = defineComputation({
  name: 'water-content-fit',
  title: 'Moisture signal to volumetric water content, against oven-dried samples',
  source: 'ISO 11465:1993; ISO 16586:2003; JCGM 100:2008 H.3',
  units: {
    'samples.signal': 'as the probe sends it',
    'samples.wetGram': 'g with tin',
    'samples.dryGram': 'g with tin',
    'samples.tinGram': 'g',
    'samples.ringCubicCentimetre': 'cm³',
    intercept: 'm³/m³',
    slope: 'm³/m³ per signal',
    square: 'm³/m³ per signal²',
    volumetricWaterContent: 'm³/m³',
  },
  input: z.object({
    samples: z.array(
      z.object({
        signal: number,
        wetGram: number,
        dryGram: number,
        tinGram: number,
        ringCubicCentimetre: number,
      }),
    ),
    degree: z.union([z.literal(1), z.literal(2)]).optional(),
    signal: number.optional(),
  }),
  output: z.object({
    intercept: number,
    slope: number,
    square: number.nullable(),
    volumetricWaterContent: number.nullable(),
    standardUncertainty: number.nullable(),
    remarks: z.array(z.string()),
    verdict,
    advice,
  }),
  run({ samples, degree = 1, signal }) {
    const fitted = fitCalibration({ kind: 'water-content-fit', samples, degree, soil: 'not named' })
    if (isRefusal(fitted)) return fitted
    const value = signal === undefined ? null : fitted.valueAt(signal)
    if (isRefusal(value)) return value
    return {
      intercept: fitted.facts['intercept'] as number,
      slope: fitted.facts['slope'] as number,
      square: (fitted.facts['square'] ?? null) as number | null,
      volumetricWaterContent: value?.value ?? null,
      standardUncertainty: value?.standardUncertainty ?? null,
      remarks: [...(value?.remarks ?? [])],
      verdict: fitted.verdict,
      advice: fitted.advice.map((each) => each.text),
    }
  },
})
