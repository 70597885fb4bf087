import { z } from 'zod'
import { studentTQuantile } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const studentT = defineComputation({
  name: 'student-t',
  title: 'Critical value of Student’s t, two-tailed',
  source: 'Abramowitz & Stegun 1964, 26.7.1',
  units: { degreesOfFreedom: '1; null: endless', twoTailed: 'probability outside ±t', t: '1' },
  input: z.object({ degreesOfFreedom: number.positive().nullable(), twoTailed: number.gt(0).lt(1) }),
  output: z.object({ t: number }),
  run: ({ degreesOfFreedom, twoTailed }) => ({
    t: -studentTQuantile(twoTailed / 2, degreesOfFreedom ?? Number.POSITIVE_INFINITY),
  }),
})
