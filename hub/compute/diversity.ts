import { z } from 'zod'
import { diversityOfCounts, diversityOfCover } from '../study/statistics/diversity.ts'
import { refuse } from '../study/statistics/refusals.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const diversity = defineComputation({
  name: 'diversity',
  title: 'Richness, Simpson, Shannon and evenness from counts or from cover',
  source:
    'Simpson 1949, Nature 163, 688; Shannon 1948, Bell Syst. Tech. J. 27, 379–423; Pielou 1966, J. Theor. Biol. 13, 131–144',
  units: {
    counts: 'individuals of each species',
    cover: '% or any other, of each species',
    richness: 'species',
    total: 'individuals, or the unit of cover',
    simpson: '0–1; null: not defined',
    shannon: 'natural logarithm; null: nothing grows',
    evenness: '0–1; null: fewer than two species',
  },
  input: z.object({ counts: z.array(number).optional(), cover: z.array(number).optional() }),
  output: z.object({
    richness: number,
    total: number,
    simpson: number.nullable(),
    simpsonForm: z.string(),
    shannon: number.nullable(),
    evenness: number.nullable(),
  }),
  run({ counts, cover }) {
    if (counts !== undefined && cover !== undefined) {
      return refuse(
        'E_UNPAIRED',
        'Give “counts” or “cover”, not both: individuals and cover are never mixed.',
      )
    }
    if (counts !== undefined) return diversityOfCounts(counts)
    if (cover !== undefined) return diversityOfCover(cover)
    return refuse('E_TOO_FEW', 'Give “counts” of individuals, or “cover”, one number a species.')
  },
})
