/** Repeatable random numbers for simulations: a 32-bit mulberry generator and the polar method for the normal. */
export interface SeededRandom {
  /** evenly spread over low…high */
  even(low: number, high: number): number
  /** normal with mean 0 */
  normal(standardDeviation: number): number
}

export function seededRandom(seed: number): SeededRandom {
  let state = seed >>> 0
  const unit = () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
  const normal = (standardDeviation: number): number => {
    for (;;) {
      const u = 2 * unit() - 1
      const v = 2 * unit() - 1
      const s = u * u + v * v
      if (s > 0 && s < 1) return standardDeviation * u * Math.sqrt((-2 * Math.log(s)) / s)
    }
  }
  return { even: (low, high) => low + (high - low) * unit(), normal }
}
