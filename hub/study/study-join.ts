import type { SpeciesAnswers, SpeciesTable } from '../contract/species.ts'
import type { StudySummary } from '../contract/study.ts'
import { factorsOf } from './factors.ts'
import { labelAnswersOf } from './label-answers.ts'
import { type Joined, joinSpecies } from './species/join-species.ts'
import type { QuadratReadings } from './species/read-readings.ts'

/** Summaries beside species, one row a quadrat and one a quadrat and taxon; what has no partner is a table of its own. */
export function joinStudy(summary: StudySummary, table: SpeciesTable, answers: SpeciesAnswers): Joined {
  return joinSpecies(readingsForJoin(summary), table, labelAnswersOf(answers))
}

/** One value a quadrat and factor, as the join takes them from a file too. */
export function readingsForJoin(summary: StudySummary): QuadratReadings {
  const values = factorsOf(summary).flatMap(({ name, quantity, how, unit, statistic, values }) =>
    [...values].map(([quadrat, { value, n, ownUncertainty, sharedUncertainty }]) => ({
      quadrat,
      quantity: name.includes('% of open sky') ? 'light_open_sky_percent' : quantity,
      method: how,
      unit,
      n,
      value,
      statistic: statistic === 'median' ? ('median' as const) : ('mean' as const),
      uncertainty: Math.hypot(ownUncertainty, sharedUncertainty) || null,
    })),
  )
  return { quadrats: summary.quadrats.map(({ label }) => label), values, notes: [] }
}
