/** A seed that nobody chose, short enough to be written on paper. */
export function freshSeed(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0]! % 1_000_000
}
