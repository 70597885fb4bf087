import { z } from 'zod'
import { windAtTwoMetres } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const windHeight = defineComputation({
  name: 'wind-height',
  title: 'Wind speed at 2 m from that at another height, over open short grass',
  source: 'Allen et al. 1998, FAO Irrigation and Drainage Paper 56, eq. 47',
  units: { metresPerSecond: 'm/s', heightMetres: 'm', at2Metres: 'm/s' },
  input: z.object({ metresPerSecond: number, heightMetres: number }),
  output: z.object({ at2Metres: number }),
  run: (input) =>
    answer(windAtTwoMetres(input.metresPerSecond, input.heightMetres), (at2Metres) => ({ at2Metres })),
})
