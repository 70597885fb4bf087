import { z } from 'zod'
import { twoSpecies } from '../study/statistics/two-species.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const twoSpeciesComputation = defineComputation({
  name: 'two-species',
  title: 'Whether two species share quadrats more or less often than by chance',
  source: 'Yates 1934, Suppl. J. R. Stat. Soc. 1, 217–235; Fisher 1935, J. R. Stat. Soc. 98, 39–82',
  units: {
    both: 'quadrats',
    firstOnly: 'quadrats',
    secondOnly: 'quadrats',
    neither: 'quadrats',
    expectedBoth: 'quadrats',
    isExpectedTooSmall: 'an expected count is under 5: read pFisher',
    p: '0–1, without a correction',
    pYates: '0–1, with Yates’ correction',
    pFisher: '0–1, exact, two-tailed',
  },
  input: z.object({ both: number, firstOnly: number, secondOnly: number, neither: number }),
  output: z.object({
    n: number,
    association: z.enum(['together', 'apart', 'as by chance']).nullable(),
    expectedBoth: number,
    smallestExpected: number,
    isExpectedTooSmall: z.boolean(),
    chiSquare: number.nullable(),
    p: number.nullable(),
    chiSquareYates: number.nullable(),
    pYates: number.nullable(),
    pFisher: number.nullable(),
  }),
  run: (counts) => twoSpecies(counts),
})
