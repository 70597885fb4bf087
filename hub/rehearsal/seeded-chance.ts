/**
 * Chance that can be looked up instead of drawn: a number depends only on the seed, a name and an index.
 * Whatever order things are asked in, however late, the same seed gives the same class.
 */
export interface Chance {
  /** evenly in [0, 1) */
  uniform(name: string, index?: number): number
  /** evenly between two bounds */
  between(low: number, high: number, name: string, index?: number): number
  /** standard normal, cut at ±3 */
  normal(name: string, index?: number): number
  /** in 0…1 and continuous in `position`: independent at whole numbers, eased in between */
  smooth(name: string, position: number): number
  /** one of the list */
  pick<T>(list: readonly T[], name: string, index?: number): T | undefined
}

export function chanceOf(seed: number): Chance {
  const uniform = (name: string, index = 0): number => {
    const high = Math.floor(index / 2 ** 32)
    return scramble(scramble(scramble(seed ^ hashText(name)) + high) + (index >>> 0)) / 2 ** 32
  }
  return {
    uniform,
    between: (low, high, name, index) => low + (high - low) * uniform(name, index),
    normal: (name, index) => {
      const radius = Math.sqrt(-2 * Math.log(1 - uniform(`${name}/radius`, index)))
      const value = radius * Math.cos(2 * Math.PI * uniform(`${name}/angle`, index))
      return Math.max(-3, Math.min(3, value))
    },
    smooth: (name, position) => {
      const step = Math.floor(position)
      const part = position - step
      const eased = part * part * (3 - 2 * part)
      const from = uniform(name, step)
      return from + (uniform(name, step + 1) - from) * eased
    },
    pick: (list, name, index) => list[Math.floor(uniform(name, index) * list.length)],
  }
}

/** A 32-bit mixing function: every input bit reaches every output bit. */
function scramble(value: number): number {
  let bits = value | 0
  bits ^= bits >>> 16
  bits = Math.imul(bits, 0x7feb352d)
  bits ^= bits >>> 15
  bits = Math.imul(bits, 0x846ca68b)
  return (bits ^ (bits >>> 16)) >>> 0
}

/** FNV-1a, 32 bits. */
function hashText(text: string): number {
  let hash = 0x811c9dc5
  for (let at = 0; at < text.length; at += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193)
  }
  return hash >>> 0
}
