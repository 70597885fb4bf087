import type { Refusal } from '../../../calibration/index.ts'
import { isConstant, refuseNumbers } from './check-numbers.ts'
import { deviationsOf } from './deviations.ts'
import { refuse } from './refusals.ts'
import { symmetricEigen } from './symmetric-eigen.ts'

const FEWEST_QUADRATS = 3
const FEWEST_FACTORS = 2
const MOST_FACTORS = 60

/** A factor as a column: its name, and one value a quadrat. */
export interface FactorColumn {
  name: string
  values: readonly number[]
}

export interface PrincipalComponent {
  /** variance along it, in units of one standardised factor */
  eigenvalue: number
  /** of all variance, 0–1 */
  shareOfVariance: number
  /** for each factor its correlation with the scores, −1…1: eigenvector × √eigenvalue */
  loadings: { name: string; loading: number }[]
  /** one a quadrat, in the order given; their variance is the eigenvalue */
  scores: number[]
}

export interface PrincipalComponents {
  /** quadrats */
  n: number
  /** greatest variance first */
  components: PrincipalComponent[]
}

/**
 * Principal components of standardised factors, from their correlation matrix.
 * The sign of a component is free; here the loading greatest in size is positive, the first of equals.
 * @param factors  two or more, up to 60, each with one value for every quadrat, three quadrats or more
 * @returns refusal `E_TOO_FEW`, `E_UNPAIRED`, `E_CONSTANT`, `E_NOT_FINITE`, `E_TOO_MANY`
 * @see Jolliffe 2002, Principal Component Analysis, 2nd ed., §2.3, §3.3
 */
export function principalComponents(factors: readonly FactorColumn[]): PrincipalComponents | Refusal {
  const wrong = refuseFactors(factors)
  if (wrong !== null) return wrong
  const n = factors[0]!.values.length
  const standardised = factors.map(({ values }) => standardise(values))
  const correlations = standardised.map((one) =>
    standardised.map((other) => (one === other ? 1 : dot(one, other) / (n - 1))),
  )
  const components = symmetricEigen(correlations).map(({ value, vector }) => {
    // rounding can leave a trace below 0 where there is no variance at all
    const eigenvalue = Math.max(0, value)
    const sign = signOf(vector)
    return {
      eigenvalue,
      shareOfVariance: eigenvalue / factors.length,
      loadings: factors.map(({ name }, k) => ({ name, loading: sign * vector[k]! * Math.sqrt(eigenvalue) })),
      scores: Array.from({ length: n }, (_, quadrat) =>
        standardised.reduce((sum, column, k) => sum + sign * vector[k]! * column[quadrat]!, 0),
      ),
    }
  })
  return { n, components }
}

function standardise(values: readonly number[]): number[] {
  const { each, sumOfSquares } = deviationsOf(values)
  const deviation = Math.sqrt(sumOfSquares / (values.length - 1))
  return each.map((value) => value / deviation)
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, k) => sum + value * other[k]!, 0)
}

function signOf(vector: readonly number[]): 1 | -1 {
  // equals may differ in the last digits, and must not swap the sign for that
  const greatest = Math.max(...vector.map(Math.abs)) * (1 - 1e-9)
  return vector.find((each) => Math.abs(each) >= greatest)! < 0 ? -1 : 1
}

function refuseFactors(factors: readonly FactorColumn[]): Refusal | null {
  if (factors.length < FEWEST_FACTORS) {
    return refuse(
      'E_TOO_FEW',
      `There are ${factors.length} factors; components need at least ${FEWEST_FACTORS}.`,
    )
  }
  if (factors.length > MOST_FACTORS) {
    return refuse(
      'E_TOO_MANY',
      `There are ${factors.length} factors; at most ${MOST_FACTORS} are worked out here.`,
    )
  }
  const n = factors[0]!.values.length
  for (const { name, values } of factors) {
    if (values.length !== n) {
      return refuse(
        'E_UNPAIRED',
        `“${name}” has ${values.length} values, “${factors[0]!.name}” has ${n}; give one a quadrat.`,
      )
    }
    const wrong = refuseNumbers(values, name, FEWEST_QUADRATS)
    if (wrong !== null) return wrong
    if (isConstant(values) || deviationsOf(values).sumOfSquares === 0) {
      return refuse(
        'E_CONSTANT',
        `All values of “${name}” are ${values[0]}; it explains nothing. Leave it out.`,
      )
    }
  }
  return null
}
