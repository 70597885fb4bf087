import type { Refusal } from '../../../calibration/index.ts'
import { refuseNumbers } from './check-numbers.ts'
import { refuse } from './refusals.ts'

/** Of a list of counts of individuals, drawn without putting back; or of cover, by shares. */
export type SimpsonForm = '1 − Σn(n−1)/N(N−1)' | '1 − Σp²'

export interface Diversity {
  /** number of species with more than none */
  richness: number
  /** individuals, or the sum of cover, which may pass 100 % where plants overlap */
  total: number
  /** 0–1, the chance that two individuals (or two covered points) are of different species; null when not defined */
  simpson: number | null
  simpsonForm: SimpsonForm
  /** −Σ p ln p, natural logarithm; null when nothing grows */
  shannon: number | null
  /** Pielou's: Shannon divided by ln richness, 0–1; null for fewer than two species */
  evenness: number | null
}

/**
 * Diversity from counted individuals.
 * @param counts  individuals of each species, whole, 0 or more; zeros do not change anything
 * @returns simpson null for fewer than two individuals; refusal `E_TOO_FEW`, `E_NOT_FINITE`, `E_NEGATIVE`, `E_NOT_WHOLE`
 * @see Simpson 1949, Nature 163, 688; Shannon 1948, Bell Syst. Tech. J. 27, 379–423; Pielou 1966, J. Theor. Biol. 13, 131–144
 */
export function diversityOfCounts(counts: readonly number[]): Diversity | Refusal {
  const wrong = refuseAmounts(counts, 'counts')
  if (wrong !== null) return wrong
  const broken = counts.find((count) => !Number.isInteger(count))
  if (broken !== undefined) {
    return refuse(
      'E_NOT_WHOLE',
      `A count is ${broken}; individuals are whole. For percentage cover give “cover”.`,
    )
  }
  const total = sumOf(counts)
  const pairs = total * (total - 1)
  const same = sumOf(counts.map((count) => count * (count - 1)))
  return {
    ...shares(counts),
    simpson: pairs > 0 ? 1 - same / pairs : null,
    simpsonForm: '1 − Σn(n−1)/N(N−1)',
  }
}

/**
 * Diversity from cover, in % or any other unit; cover has no individuals, so the form with shares is used.
 * @param cover  of each species, 0 or more
 * @returns simpson null when nothing grows; refusal `E_TOO_FEW`, `E_NOT_FINITE`, `E_NEGATIVE`
 */
export function diversityOfCover(cover: readonly number[]): Diversity | Refusal {
  const wrong = refuseAmounts(cover, 'cover')
  if (wrong !== null) return wrong
  const total = sumOf(cover)
  return {
    ...shares(cover),
    simpson: total > 0 ? 1 - sumOf(cover.map((each) => (each / total) ** 2)) : null,
    simpsonForm: '1 − Σp²',
  }
}

function shares(amounts: readonly number[]) {
  const total = sumOf(amounts)
  const present = amounts.filter((amount) => amount > 0)
  const richness = present.length
  const terms = present.map((amount) => (amount / total) * Math.log(total / amount))
  const shannon = richness === 0 ? null : sumOf(terms)
  return {
    richness,
    total,
    shannon,
    evenness: shannon === null || richness < 2 ? null : Math.min(1, shannon / Math.log(richness)),
  }
}

function refuseAmounts(amounts: readonly number[], name: string): Refusal | null {
  const wrong = refuseNumbers(amounts, name)
  if (wrong !== null) return wrong
  const below = amounts.find((amount) => amount < 0)
  return below === undefined
    ? null
    : refuse('E_NEGATIVE', `“${name}” contains ${below}; nothing is less than none.`)
}

function sumOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, each) => sum + each, 0)
}
