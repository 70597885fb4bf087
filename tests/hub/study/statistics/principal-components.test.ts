import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { principalComponents } from '../../../../hub/study/statistics/principal-components.ts'
import { symmetricEigen } from '../../../../hub/study/statistics/symmetric-eigen.ts'
import { referenceRows } from '../../../calibration/reference-files.ts'
import { answered, refusedWith } from './answered.ts'

const FACTORS = ['N', 'P', 'K', 'Ca', 'pH', 'Humdepth']
const chemistry = FACTORS.map((name) => ({
  name,
  values: referenceRows('eco-varechem.csv').map((row) => Number(row[name])),
}))

describe('principalComponents', () => {
  test('soil chemistry of 24 sites: eigenvalues, loadings and scores as numpy gives them', () => {
    // numpy linalg.eigh of corrcoef of eco-varechem.csv, signs by the same rule
    const eigenvalues = [
      2.654730666000827, 1.6832655583271454, 0.8806161742518157, 0.4420301568707446, 0.2154860166646949,
      0.12387142788477168,
    ]
    const first = [
      -0.32172440439769856, 0.8754609453040172, 0.8814720923522251, 0.8483326296353829, -0.28329959059930726,
      0.4559300919324596,
    ]
    const second = [
      -0.3578607056556751, 0.2590549020111208, 0.031277737219935015, 0.2856144685649249, 0.8787421544563238,
      -0.7958329824159168,
    ]
    const { n, components } = answered(principalComponents(chemistry))
    expect(n).toBe(24)
    for (const [k, component] of components.entries()) {
      expect(component.eigenvalue).toBeCloseTo(eigenvalues[k]!, 11)
      expect(component.shareOfVariance).toBeCloseTo(eigenvalues[k]! / 6, 11)
    }
    for (const [k, { name, loading }] of components[0]!.loadings.entries()) {
      expect(name).toBe(FACTORS[k])
      expect(loading).toBeCloseTo(first[k]!, 10)
      expect(components[1]!.loadings[k]!.loading).toBeCloseTo(second[k]!, 10)
    }
    const scores = [-0.12482160955386669, -0.20448435363983383, 1.9841349539770226]
    for (const [k, score] of scores.entries()) expect(components[0]!.scores[k]).toBeCloseTo(score, 10)
  })

  test('two factors in closed form: 1 ± r, and the sign rule makes the greatest loading positive', () => {
    const up = { name: 'up', values: [1, 2, 3, 4, 6] }
    const down = { name: 'down', values: [9, 7, 8, 3, 1] }
    const { components } = answered(principalComponents([up, down]))
    expect(components[0]!.eigenvalue + components[1]!.eigenvalue).toBeCloseTo(2, 12)
    expect(components[0]!.loadings[0]!.loading).toBeGreaterThan(0)
    expect(components[0]!.loadings[1]!.loading).toBeLessThan(0)
  })

  test('two factors that say the same leave nothing for the second component, not a trace below 0', () => {
    const values = [1, 2, 4, 8]
    const twice = values.map((value) => 2 * value)
    const { components } = answered(
      principalComponents([
        { name: 'once', values },
        { name: 'twice', values: twice },
      ]),
    )
    expect(components[0]!.shareOfVariance).toBeCloseTo(1, 12)
    expect(components[1]!.eigenvalue).toBeGreaterThanOrEqual(0)
    expect(components[1]!.eigenvalue).toBeCloseTo(0, 12)
  })

  test('constant columns, two quadrats, one factor and lists of unequal length are refused by name', () => {
    const a = { name: 'light', values: [1, 2, 4] }
    expect(refusedWith(principalComponents([a, { name: 'pH', values: [5, 5, 5] }]), 'E_CONSTANT')).toContain(
      'pH',
    )
    refusedWith(principalComponents([a]), 'E_TOO_FEW')
    refusedWith(principalComponents([a, { name: 'pH', values: [5, 6] }]), 'E_UNPAIRED')
    const two = { name: 'light', values: [1, 2] }
    refusedWith(principalComponents([two, two]), 'E_TOO_FEW')
    refusedWith(principalComponents(Array.from({ length: 61 }, () => a)), 'E_TOO_MANY')
  })

  test('scores are centred, uncorrelated, and have the eigenvalue as variance', () => {
    const { n, components } = answered(principalComponents(chemistry))
    for (const [k, one] of components.entries()) {
      expect(one.scores.reduce((sum, score) => sum + score, 0)).toBeCloseTo(0, 10)
      for (const [m, other] of components.entries()) {
        const products = one.scores.reduce((sum, score, quadrat) => sum + score * other.scores[quadrat]!, 0)
        expect(products / (n - 1)).toBeCloseTo(k === m ? one.eigenvalue : 0, 10)
      }
    }
  })
})

test('symmetricEigen: matrix × vector = value × vector, vectors of length 1 at right angles', () => {
  const entry = fc.integer({ min: -20, max: 20 })
  const matrices = fc
    .integer({ min: 1, max: 6 })
    .chain((size) =>
      fc.array(fc.array(entry, { minLength: size, maxLength: size }), { minLength: size, maxLength: size }),
    )
    .map((rows) => rows.map((row, i) => row.map((_, j) => rows[Math.min(i, j)]![Math.max(i, j)]!)))
  fc.assert(
    fc.property(matrices, (matrix) => {
      const found = symmetricEigen(matrix)
      for (const { value, vector } of found) {
        for (const [i, row] of matrix.entries()) {
          expect(row.reduce((sum, each, j) => sum + each * vector[j]!, 0)).toBeCloseTo(value * vector[i]!, 9)
        }
        for (const other of found) {
          const product = vector.reduce((sum, each, i) => sum + each * other.vector[i]!, 0)
          expect(product).toBeCloseTo(other.vector === vector ? 1 : 0, 10)
        }
      }
    }),
    { seed: 51 },
  )
})
