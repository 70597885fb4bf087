/** An eigenvalue of a symmetric matrix and its direction, of length 1. */
export interface Eigen {
  value: number
  vector: number[]
}

/**
 * All eigenvalues and eigenvectors of a symmetric matrix, greatest value first, by turning pairs of axes until
 * nothing is left beside the diagonal.
 * @param matrix  rows of a symmetric matrix with finite entries
 * @see Golub & Van Loan 2013, Matrix Computations, 4th ed., §8.5: the cyclic Jacobi method
 */
export function symmetricEigen(matrix: readonly (readonly number[])[]): Eigen[] {
  const size = matrix.length
  const a = matrix.map((row) => [...row])
  const vectors = a.map((_, row) => a.map((__, column) => (row === column ? 1 : 0)))
  const scale = Math.max(...a.flat().map(Math.abs))
  for (let sweep = 0; sweep < 60 && largestOff(a) > 1e-15 * scale; sweep++) {
    for (let p = 0; p < size; p++) {
      for (let q = p + 1; q < size; q++) turn(a, vectors, p, q)
    }
  }
  return a
    .map((row, k) => ({ value: row[k]!, vector: vectors.map((each) => each[k]!) }))
    .sort((one, other) => other.value - one.value)
}

function largestOff(a: readonly (readonly number[])[]): number {
  let largest = 0
  for (const [row, numbers] of a.entries()) {
    for (let column = row + 1; column < numbers.length; column++) {
      largest = Math.max(largest, Math.abs(numbers[column]!))
    }
  }
  return largest
}

/** Turns axes p and q so that a[p][q] becomes 0. */
function turn(a: number[][], vectors: number[][], p: number, q: number): void {
  const off = a[p]![q]!
  if (off === 0) return
  const tau = (a[q]![q]! - a[p]![p]!) / (2 * off)
  const tangent = (tau >= 0 ? 1 : -1) / (Math.abs(tau) + Math.sqrt(1 + tau * tau))
  const cosine = 1 / Math.sqrt(1 + tangent * tangent)
  const sine = tangent * cosine
  for (const row of a) turnPair(row, p, q, cosine, sine)
  const rowP = a[p]!
  const rowQ = a[q]!
  for (let k = 0; k < rowP.length; k++) {
    const [one, other] = [rowP[k]!, rowQ[k]!]
    rowP[k] = cosine * one - sine * other
    rowQ[k] = sine * one + cosine * other
  }
  rowP[q] = 0
  rowQ[p] = 0
  for (const row of vectors) turnPair(row, p, q, cosine, sine)
}

function turnPair(row: number[], p: number, q: number, cosine: number, sine: number): void {
  const [one, other] = [row[p]!, row[q]!]
  row[p] = cosine * one - sine * other
  row[q] = sine * one + cosine * other
}
