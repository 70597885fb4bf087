/**
 * Inverse of a small matrix (row by row in one array) by Gauss–Jordan elimination with partial pivoting.
 * @returns null when it has none to working precision
 */
export function invertSymmetric(matrix: readonly number[], size: number): number[] | null {
  const left = [...matrix]
  const inverse = left.map((_, k) => (Math.floor(k / size) === k % size ? 1 : 0) as number)
  for (let column = 0; column < size; column++) {
    let pivot = column
    for (let row = column + 1; row < size; row++) {
      if (Math.abs(left[row * size + column]!) > Math.abs(left[pivot * size + column]!)) pivot = row
    }
    const lead = left[pivot * size + column]!
    if (Math.abs(lead) < 1e-12) return null
    for (let k = 0; k < size; k++) {
      swap(left, column * size + k, pivot * size + k)
      swap(inverse, column * size + k, pivot * size + k)
    }
    for (let k = 0; k < size; k++) {
      left[column * size + k]! /= lead
      inverse[column * size + k]! /= lead
    }
    for (let row = 0; row < size; row++) {
      const share = left[row * size + column]!
      if (row === column || share === 0) continue
      for (let k = 0; k < size; k++) {
        left[row * size + k]! -= share * left[column * size + k]!
        inverse[row * size + k]! -= share * inverse[column * size + k]!
      }
    }
  }
  return inverse
}

function swap(numbers: number[], one: number, other: number): void {
  const kept = numbers[one]!
  numbers[one] = numbers[other]!
  numbers[other] = kept
}
