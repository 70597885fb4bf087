/**
 * Fisher's exact two-tailed p of a two-by-two table: the share of all tables with the same margins that are as
 * improbable as this one, or more.
 * @param both  quadrats with both; the four counts are whole and 0 or more, with a sum of a few thousand at most
 * @see Fisher 1935, J. R. Stat. Soc. 98, 39–82; two tails by the method of small probabilities
 */
export function fisherExactP(both: number, firstOnly: number, secondOnly: number, neither: number): number {
  const first = both + firstOnly
  const second = both + secondOnly
  const n = first + secondOnly + neither
  const least = Math.max(0, first + second - n)
  const most = Math.min(first, second)
  // each table's weight from the one before it; the largest is made 1 so that none overflows
  const logarithms = [0]
  for (let k = least + 1; k <= most; k++) {
    const step = Math.log(((first - k + 1) * (second - k + 1)) / (k * (n - first - second + k)))
    logarithms.push(logarithms.at(-1)! + step)
  }
  const largest = Math.max(...logarithms)
  const weights = logarithms.map((logarithm) => Math.exp(logarithm - largest))
  const own = weights[both - least]!
  // tables that are equally improbable by symmetry may differ in the last digits
  const isAsRare = (weight: number) => weight <= own * (1 + 1e-7)
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  return Math.min(1, weights.filter(isAsRare).reduce((sum, weight) => sum + weight, 0) / total)
}
