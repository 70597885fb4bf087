import { z } from 'zod'
import { fitLineThroughOrigin } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const originLineFit = defineComputation({
  name: 'origin-line-fit',
  title: 'Straight line through the origin by least squares',
  source:
    'Draper & Smith 1998, Applied Regression Analysis, 3rd ed., ch. 1; checked against NIST StRD NoInt1',
  units: { x: 'any', y: 'any', slope: 'y per x', residualStandardDeviation: 'y' },
  input: z.object({ x: z.array(number), y: z.array(number) }),
  output: z.object({
    slope: number,
    slopeStandardError: number.nullable(),
    residualStandardDeviation: number.nullable(),
  }),
  run: ({ x, y }) => answer(fitLineThroughOrigin(x, y), (line) => line),
})
