/** A small generator with a seed, so that what failed can be run again. xorshift32: Marsaglia 2003, J. Stat. Softw. 8(14). */
export function seeded(seed: number): () => number {
  let state = seed | 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 2 ** 32
  }
}

const NASTY = [
  '\0',
  '\uFEFF',
  '"',
  '\\',
  '{',
  '[',
  ']',
  '}',
  ',',
  ';',
  '1e999',
  '-0',
  'NaN',
  '__proto__',
  '💧',
  '\r\n',
  '=1+1',
  '9'.repeat(400),
]

/** One valid input changed as wires, editors and strangers change it: bits, cuts, repeats, and pieces that parsers trip over. */
export function mutate(bytes: Uint8Array, chance: () => number): Uint8Array {
  let out = Buffer.from(bytes)
  const changes = 1 + Math.floor(chance() * 4)
  for (let change = 0; change < changes; change++) {
    const at = Math.floor(chance() * (out.length + 1))
    const length = Math.floor(chance() * 16)
    switch (Math.floor(chance() * 6)) {
      case 0:
        if (at < out.length) out[at] = out[at]! ^ (1 << Math.floor(chance() * 8))
        break
      case 1:
        out = Buffer.concat([out.subarray(0, at), out.subarray(at + length)])
        break
      case 2:
        out = Buffer.concat([
          out.subarray(0, at),
          Buffer.from(NASTY[Math.floor(chance() * NASTY.length)]!),
          out.subarray(at),
        ])
        break
      case 3:
        out = Buffer.concat([out.subarray(0, at), out.subarray(Math.max(0, at - length)), out.subarray(at)])
        break
      case 4:
        out = Buffer.from(Array.from({ length }, () => Math.floor(chance() * 256)))
        break
      default:
        out = Buffer.concat([out.subarray(at), out.subarray(0, at)])
    }
  }
  return out
}
