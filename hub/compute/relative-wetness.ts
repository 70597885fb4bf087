import { z } from 'zod'
import { fitCalibration, isRefusal } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const relativeWetness = defineComputation({
  name: 'relative-wetness',
  title: 'Relative wetness of a moisture probe between its dry and wet signals',
  source: 'definition: share of the span from the dry to the wet signal',
  units: {
    drySignal: 'any',
    wetSignal: 'as dry',
    signal: 'as dry',
    relativeWetness: '0 dry – 1 wet, not clipped',
  },
  input: z.object({ drySignal: number, wetSignal: number, signal: number }),
  output: z.object({ relativeWetness: number, remarks: z.array(z.string()) }),
  run({ signal, ...ends }) {
    const fitted = fitCalibration({ kind: 'wetness-span', ...ends })
    if (isRefusal(fitted)) return fitted
    const value = fitted.valueAt(signal)
    return isRefusal(value) ? value : { relativeWetness: value.value, remarks: [...value.remarks] }
  },
})
