import { z } from 'zod'
import { fitCalibration, isRefusal } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { advice, number, verdict } from './fields.ts'

export const cupFit = defineComputation({
  name: 'cup-fit',
  title: 'Offset and slope of a cup anemometer from pairs of frequency and reference speed',
  source: 'ISO 17713-1:2007; IEC 61400-12-1, annex on cup anemometer calibration',
  units: {
    'pairs.hertz': 'Hz',
    'pairs.metresPerSecond': 'm/s',
    offsetMetresPerSecond: 'm/s',
    slopeMetresPerSecondPerHertz: 'm/s per Hz',
  },
  input: z.object({ pairs: z.array(z.object({ hertz: number, metresPerSecond: number })).min(1) }),
  output: z.object({ offsetMetresPerSecond: number, slopeMetresPerSecondPerHertz: number, verdict, advice }),
  run({ pairs }) {
    const fitted = fitCalibration({ kind: 'cup-anemometer', pairs })
    if (isRefusal(fitted)) return fitted
    return {
      offsetMetresPerSecond: fitted.facts['offsetMetresPerSecond'] as number,
      slopeMetresPerSecondPerHertz: fitted.facts['slopeMetresPerSecondPerHertz'] as number,
      verdict: fitted.verdict,
      advice: fitted.advice.map((each) => each.text),
    }
  },
})
