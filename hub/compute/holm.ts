import { z } from 'zod'
import { holm } from '../study/statistics/holm.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const holmComputation = defineComputation({
  name: 'holm',
  title: 'Many tests at once: corrected p’s and the false alarms to expect',
  source: 'Holm 1979, Scand. J. Stat. 6, 65–70',
  units: {
    p: '0–1, one a test; null: not defined, not counted',
    level: '0–1, 0.05 when not given',
    expectedFalseAlarms: 'tests',
    'tests.adjustedP': '0–1, to be compared with the level',
    'tests.threshold': '0–1, what p itself is compared with',
  },
  input: z.object({ p: z.array(number.nullable()), level: number.optional() }),
  output: z.object({
    testCount: number,
    expectedFalseAlarms: number,
    tests: z.array(
      z.object({
        p: number.nullable(),
        adjustedP: number.nullable(),
        threshold: number.nullable(),
        isSignificant: z.boolean(),
      }),
    ),
  }),
  run: ({ p, level }) => holm(p, level),
})
