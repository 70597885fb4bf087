import { type Refusal, refuse } from '../refusal.ts'
import { invertSymmetric } from './matrix.ts'

export interface Polynomial {
  degree: number
  /** y for x */
  at(x: number): number
  /** weight of each point in y at x: Σ of their squares times a common variance is the variance of the curve there */
  leverageAt(x: number): number
  /** null when there are only as many points as coefficients */
  residualStandardDeviation: number | null
  degreesOfFreedom: number
  /** in powers of x, constant first, for display */
  coefficients: number[]
}

/**
 * Polynomial of degree 1 or 2 by ordinary least squares; x is centred and scaled before solving.
 * @param x,y  equal length, at least degree + 1 different x
 * @see Draper & Smith 1998, Applied Regression Analysis, 3rd ed., ch. 5
 */
export function fitPolynomial(
  x: readonly number[],
  y: readonly number[],
  degree: 1 | 2,
): Polynomial | Refusal {
  const n = x.length
  const size = degree + 1
  if (new Set(x).size < size) {
    return refuse(
      'E_POINTS_FEW',
      `A curve of degree ${degree} needs ${size} different signals; ${new Set(x).size} given.`,
    )
  }
  const centre = x.reduce((sum, each) => sum + each, 0) / n
  const width = Math.max(...x.map((each) => Math.abs(each - centre)))
  const powers = (at: number): number[] => {
    const u = (at - centre) / width
    return degree === 1 ? [1, u] : [1, u, u * u]
  }
  const normal = new Array<number>(size * size).fill(0)
  const right = new Array<number>(size).fill(0)
  for (let k = 0; k < n; k++) {
    const row = powers(x[k]!)
    for (let i = 0; i < size; i++) {
      right[i]! += row[i]! * y[k]!
      for (let j = 0; j < size; j++) normal[i * size + j]! += row[i]! * row[j]!
    }
  }
  const inverse = invertSymmetric(normal, size)
  if (inverse === null) return refuse('E_SAME_SIGNAL', 'The signals lie too close together for this curve.')
  const c = right.map((_, i) => right.reduce((sum, each, j) => sum + inverse[i * size + j]! * each, 0))
  const [c0, c1, c2] = [c[0]!, c[1]!, c[2] ?? 0]
  const at = (each: number) => {
    const u = (each - centre) / width
    return c0 + u * (c1 + u * c2)
  }
  const degreesOfFreedom = n - size
  const squares = x.reduce((sum, each, k) => sum + (y[k]! - at(each)) ** 2, 0)
  return {
    degree,
    at,
    leverageAt(each) {
      const row = powers(each)
      let sum = 0
      for (let i = 0; i < size; i++)
        for (let j = 0; j < size; j++) sum += row[i]! * inverse[i * size + j]! * row[j]!
      return sum
    },
    residualStandardDeviation: degreesOfFreedom > 0 ? Math.sqrt(squares / degreesOfFreedom) : null,
    degreesOfFreedom,
    coefficients: inPowersOfX(c0, c1, c2, centre, width).slice(0, size),
  }
}

function inPowersOfX(c0: number, c1: number, c2: number, centre: number, width: number): number[] {
  const b = c1 / width
  const a = c2 / (width * width)
  return [c0 - b * centre + a * centre * centre, b - 2 * a * centre, a]
}
