/** A name as it is kept: outer and double spaces away, no sign at the end; its letters as typed. */
export function tidyTaxon(name: string): string {
  return name
    .normalize('NFKC')
    .replace(/\s+/gu, ' ')
    .trim()
    .replace(/[:;,*]+$/, '')
    .trim()
}

/** Two names with one key are one taxon: case, spaces, hyphens, `_` and a full stop at the end do not matter. */
export function taxonKey(name: string): string {
  return tidyTaxon(name)
    .toLowerCase()
    .replace(/[-_\s]+/g, ' ')
    .replace(/\.$/, '')
}

const ground = new Set(
  'bare|bare ground|bare soil|bare earth|soil|litter|leaf litter|dead leaves|rock|rocks|stone|stones|gravel|dead wood|deadwood|water|path'.split(
    '|',
  ),
)
const sums =
  /^(?:grand |sub)?(?:total|totals|sum|sums|mean|average|median|total cover|total %|no of species|number of species|species richness|richness)\b/
const remarks =
  /^(?:notes?|comments?|remarks?|date|time|observers?|recorders?|recorded by|group|names?|weather|distance.*|position.*|metres?|side|area|photo.*|slope|aspect|height.*|depth.*)$/

export type TaxonKind = 'taxon' | 'ground' | 'sum' | 'remark'

/** What a heading names: a taxon, the ground between plants, a sum typed below or beside, or a remark. */
export function taxonKind(name: string): TaxonKind {
  const key = taxonKey(name)
  if (ground.has(key)) return 'ground'
  if (sums.test(key)) return 'sum'
  return remarks.test(key) ? 'remark' : 'taxon'
}

/** `Rubus sp.` or `Carex spp`: known to the genus only. It is kept as it is. */
export function isGenusOnly(name: string): boolean {
  return /^\p{Lu}\p{L}+ spp?\.?$/u.test(tidyTaxon(name))
}

/** Every name is compared with every other; a list longer than this is no class’s. */
const NEAR_NAMES_MAX = 500
/** No name of a plant is longer; a text that is would take long to compare. */
const NEAR_LETTERS_MAX = 200

/**
 * Pairs of names so near in spelling that one may be the other: one slip (a letter wrong, missing, extra, or two
 * swapped) in names of 5 to 8 letters, two in longer ones. A suggestion, never a merger.
 */
export function nearNames(names: readonly string[]): [string, string][] {
  if (names.length > NEAR_NAMES_MAX) return []
  const keyed = names
    .filter(({ length }) => length <= NEAR_LETTERS_MAX)
    .map((name) => ({ name, key: taxonKey(name) }))
  const pairs: [string, string][] = []
  for (const [place, one] of keyed.entries())
    for (const other of keyed.slice(place + 1)) {
      const shorter = Math.min(one.name.length, other.name.length)
      const allowed = shorter < 5 ? 0 : shorter <= 8 ? 1 : 2
      if (allowed > 0 && isWithinSlips(one.key, other.key, allowed)) pairs.push([one.name, other.name])
    }
  return pairs
}

/**
 * Whether the optimal string alignment distance (insertions, deletions, changes and swaps of neighbours: Damerau 1964) is
 * at most so many. Only the diagonals of its table that can lead to so few are worked out.
 */
function isWithinSlips(a: string, b: string, most: number): boolean {
  if (Math.abs(a.length - b.length) > most) return false
  const width = 2 * most + 1
  /** of a row, the distance on the diagonal `most` to the left of the middle, and so on to the right */
  const far = () => new Array<number>(width).fill(Number.POSITIVE_INFINITY)
  let two = far()
  let one = far()
  for (let i = 0; i <= a.length; i++) {
    const row = far()
    for (let k = 0; k < width; k++) {
      const j = i + k - most
      if (j < 0 || j > b.length) continue
      if (i === 0 || j === 0) {
        row[k] = i + j
        continue
      }
      const change = a[i - 1] === b[j - 1] ? 0 : 1
      const more = (one[k + 1] ?? Number.POSITIVE_INFINITY) + 1
      const fewer = (row[k - 1] ?? Number.POSITIVE_INFINITY) + 1
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      row[k] = Math.min(more, fewer, one[k]! + change, isSwap ? two[k]! + 1 : Number.POSITIVE_INFINITY)
    }
    if (Math.min(...row) > most && Math.min(...one) > most && i > 0) return false
    two = one
    one = row
  }
  return one[b.length - a.length + most]! <= most
}
