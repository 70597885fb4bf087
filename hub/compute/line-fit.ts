import { z } from 'zod'
import { fitLine } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const lineFit = defineComputation({
  name: 'line-fit',
  title: 'Straight line by least squares, with standard errors',
  source:
    'Draper & Smith 1998, Applied Regression Analysis, 3rd ed., ch. 1; checked against NIST StRD Norris',
  units: { x: 'any', y: 'any', slope: 'y per x', intercept: 'y', residualStandardDeviation: 'y' },
  input: z.object({ x: z.array(number), y: z.array(number) }),
  output: z.object({
    slope: number,
    intercept: number,
    slopeStandardError: number.nullable(),
    interceptStandardError: number.nullable(),
    residualStandardDeviation: number.nullable(),
    degreesOfFreedom: number,
  }),
  run: ({ x, y }) =>
    answer(fitLine(x, y), (line) => ({
      slope: line.slope,
      intercept: line.intercept,
      slopeStandardError: line.slopeStandardError,
      interceptStandardError: line.interceptStandardError,
      residualStandardDeviation: line.residualStandardDeviation,
      degreesOfFreedom: line.degreesOfFreedom,
    })),
})
