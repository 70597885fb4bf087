/** Numbers that look random and are the same for a seed, for ever. */
export interface SeededNumbers {
  /** @returns a whole number from 0 to `below` − 1, each equally likely; `below` from 1 to 2³² */
  wholeBelow(below: number): number
}

/**
 * The generator xoshiro128**, one number of 32 bits a step.
 * @param state  four whole numbers of 32 bits, not all 0; changed by every call
 * @see Blackman & Vigna 2021, Scrambled Linear Pseudorandom Number Generators, ACM Trans. Math. Softw. 47(4), 36
 */
export function nextOf(state: Uint32Array): number {
  const [s0, s1, s2, s3] = state as unknown as [number, number, number, number]
  const result = Math.imul(rotate(Math.imul(s1, 5), 7), 9) >>> 0
  const third = s2 ^ s0
  const fourth = s3 ^ s1
  state[1] = s1 ^ third
  state[0] = s0 ^ fourth
  state[2] = third ^ (s1 << 9)
  state[3] = rotate(fourth, 11)
  return result
}

/**
 * @param seed  whole, 0 to 2³¹ − 1
 * @param stream  another number gives other numbers of the same seed: one for each part of a plot
 */
export function seededNumbers(seed: number, stream = 0): SeededNumbers {
  const state = stateOf(seed, stream)
  return {
    wholeBelow(below) {
      // numbers past the last whole multiple of `below` would favour the small ones
      const limit = 2 ** 32 - (2 ** 32 % below)
      for (;;) {
        const number = nextOf(state)
        if (number < limit) return number % below
      }
    },
  }
}

/** Four numbers from one, stirred by the finaliser of MurmurHash3 (Appleby, public domain) over a Weyl sequence. */
function stateOf(seed: number, stream: number): Uint32Array {
  const state = new Uint32Array(4)
  let weyl = Math.imul(stream, 0x85ebca6b) ^ seed
  for (let place = 0; place < 4; place++) {
    weyl = (weyl + 0x9e3779b9) | 0
    let mixed = weyl
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b)
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
    state[place] = mixed ^ (mixed >>> 16)
  }
  return state
}

function rotate(number: number, by: number): number {
  return (number << by) | (number >>> (32 - by))
}
