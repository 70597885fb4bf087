/** Random numbers that come out the same for the same seed. @see mulberry32, a public-domain 32-bit generator */
export function seeded(seed: number) {
  let state = seed >>> 0
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let bits = Math.imul(state ^ (state >>> 15), state | 1)
    bits ^= bits + Math.imul(bits ^ (bits >>> 7), bits | 61)
    return ((bits ^ (bits >>> 14)) >>> 0) / 2 ** 32
  }
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
  return {
    uniform,
    normal,
    between: (low: number, high: number) => low + (high - low) * uniform(),
    /** a smooth wander of about ±1 with periods from half to four times the one given */
    wander(periodMs: number): (timeMs: number) => number {
      const waves = [0.5, 1, 2, 4].map((times) => ({
        periodMs: periodMs * times * (0.8 + 0.4 * uniform()),
        phase: 7 * uniform(),
      }))
      return (timeMs) =>
        waves.reduce(
          (sum, { periodMs: period, phase }) => sum + Math.sin((2 * Math.PI * timeMs) / period + phase) / 2,
          0,
        ) / 2
    },
  }
}
