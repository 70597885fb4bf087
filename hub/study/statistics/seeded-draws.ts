/** Standard normal draws that come out the same for the same seed, so that anyone can repeat a simulation. */
export type NormalDraws = () => number

/**
 * @param seed  whole number; taken modulo 2³²
 * @see mulberry32, a public-domain 32-bit generator; Box & Muller 1958, Ann. Math. Stat. 29, 610–611
 */
export function normalDraws(seed: number): NormalDraws {
  let state = seed >>> 0
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let bits = Math.imul(state ^ (state >>> 15), state | 1)
    bits ^= bits + Math.imul(bits ^ (bits >>> 7), bits | 61)
    return ((bits ^ (bits >>> 14)) >>> 0) / 2 ** 32
  }
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
}
