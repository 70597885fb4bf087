/**
 * The signs a TrueType font can print.
 * @param font  bytes of a .ttf with a `cmap` of format 4, as plain text fonts have it
 * @throws RangeError when there is no such table
 * @see OpenType specification, `cmap`, format 4: segment mapping to delta values
 */
export function signsOf(font: Uint8Array): Set<number> {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength)
  const cmap = tableAt(view, 'cmap')
  const count = view.getUint16(cmap + 2)
  for (let index = 0; index < count; index++) {
    const at = cmap + view.getUint32(cmap + 4 + index * 8 + 4)
    if (view.getUint16(at) === 4) return signsOfSegments(view, at)
  }
  throw new RangeError('The font has no character map of format 4.')
}

function tableAt(view: DataView, name: string): number {
  const tables = view.getUint16(4)
  for (let index = 0; index < tables; index++) {
    const at = 12 + index * 16
    const tag = String.fromCharCode(...[0, 1, 2, 3].map((byte) => view.getUint8(at + byte)))
    if (tag === name) return view.getUint32(at + 8)
  }
  throw new RangeError(`The font has no table “${name}”.`)
}

function signsOfSegments(view: DataView, at: number): Set<number> {
  const segments = view.getUint16(at + 6) / 2
  const ends = at + 14
  const starts = ends + segments * 2 + 2
  const deltas = starts + segments * 2
  const offsets = deltas + segments * 2
  const signs = new Set<number>()
  for (let index = 0; index < segments; index++) {
    const end = view.getUint16(ends + index * 2)
    const start = view.getUint16(starts + index * 2)
    const offset = view.getUint16(offsets + index * 2)
    for (let code = start; code <= end && code !== 0xffff; code++) {
      const glyph =
        offset === 0
          ? (code + view.getUint16(deltas + index * 2)) & 0xffff
          : view.getUint16(offsets + index * 2 + offset + (code - start) * 2)
      if (glyph !== 0) signs.add(code)
    }
  }
  return signs
}

/** Signs that are often missing, in signs that are not. */
const INSTEAD: Readonly<Record<string, string>> = {
  '→': '->',
  '←': '<-',
  '✓': 'yes',
  '✕': 'x',
  '\u202f': '\u00a0',
  '\u2060': '',
  '⁺': '+',
  '⁻': '−',
  Ω: 'Ω',
}

/** Text that a font can print: what it cannot is written otherwise, in the end as “?”. */
export function printable(text: string, signs: ReadonlySet<number>): string {
  let out = ''
  for (const sign of text) {
    const code = sign.codePointAt(0)!
    if (signs.has(code) || sign === '\n') out += sign
    else
      out +=
        INSTEAD[sign] ?? (signs.has(sign.normalize('NFKC').codePointAt(0)!) ? sign.normalize('NFKC') : '?')
  }
  return out
}
