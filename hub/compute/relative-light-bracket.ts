import { z } from 'zod'
import { relativeLightByBracket } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const relativeLightBracket = defineComputation({
  name: 'relative-light-bracket',
  title: 'Relative light with one meter: open, quadrat, open',
  source: 'Anderson 1964, J. Ecol. 52, 27–41, on relative light; the 20 % limit is class practice',
  units: {
    openBeforeLux: 'lx',
    quadratLux: 'lx',
    openAfterLux: 'lx',
    relativePercent: '%',
    referenceLux: 'lx',
  },
  input: z.object({ openBeforeLux: number, quadratLux: number, openAfterLux: number }),
  output: z.object({ relativePercent: number, referenceLux: number }),
  run: (input) =>
    answer(
      relativeLightByBracket(input.openBeforeLux, input.quadratLux, input.openAfterLux),
      (light) => light,
    ),
})
