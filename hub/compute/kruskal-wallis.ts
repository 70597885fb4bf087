import { z } from 'zod'
import { kruskalWallis } from '../study/statistics/kruskal-wallis.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const kruskalWallisComputation = defineComputation({
  name: 'kruskal-wallis',
  title: 'Whether the values of several areas differ in height',
  source: 'Kruskal & Wallis 1952, J. Am. Stat. Assoc. 47, 583–621',
  units: {
    groups: 'any, one list an area',
    h: '1; null: not defined',
    p: '0–1; null: not defined',
    isRough: 'a group has fewer than 5',
  },
  input: z.object({ groups: z.array(z.array(number)) }),
  output: z.object({
    h: number.nullable(),
    degreesOfFreedom: number,
    p: number.nullable(),
    n: number,
    meanRanks: z.array(number),
    isRough: z.boolean(),
    method: z.string(),
  }),
  run: ({ groups }) => kruskalWallis(groups),
})
