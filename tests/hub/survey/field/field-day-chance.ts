/** Draws that come out the same for the same day: a linear congruential generator, for which no library is needed. */
export interface Chance {
  /** from 0 up to, not including, 1 */
  share(): number
  /** a whole number from `low` to `high`, both included */
  whole(low: number, high: number): number
  /** the same things in an order of chance */
  shuffled<T>(things: readonly T[]): T[]
}

/** @see Numerical Recipes, 2nd edition, §7.1: multiplier 1664525, increment 1013904223, modulus 2³² (from memory) */
export function chanceOf(day: number): Chance {
  let state = day >>> 0
  const share = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    // the high bits alone: the low ones of such a generator repeat soon
    return (state >>> 8) / 2 ** 24
  }
  const whole = (low: number, high: number) => low + Math.floor(share() * (high - low + 1))
  return {
    share,
    whole,
    shuffled: (things) => {
      const left = [...things]
      return things.map(() => left.splice(whole(0, left.length - 1), 1)[0]!)
    },
  }
}
