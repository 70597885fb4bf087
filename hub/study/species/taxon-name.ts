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

/**
 * Pairs of names so near in spelling that one may be the other: one slip (a letter wrong, missing, extra, or two
 * swapped) in names of 5 to 8 letters, two in longer ones. A suggestion, never a merger.
 */
export function nearNames(names: readonly string[]): [string, string][] {
  if (names.length > NEAR_NAMES_MAX) return []
  const pairs: [string, string][] = []
  for (const [place, name] of names.entries())
    for (const other of names.slice(place + 1)) {
      const shorter = Math.min(name.length, other.length)
      const allowed = shorter < 5 ? 0 : shorter <= 8 ? 1 : 2
      if (allowed > 0 && slips(taxonKey(name), taxonKey(other)) <= allowed) pairs.push([name, other])
    }
  return pairs
}

/** Optimal string alignment distance: insertions, deletions, changes and swaps of neighbours (Damerau 1964). */
function slips(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, column) => column)]
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1
      let least = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + change)
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, rows[i - 2]![j - 2]! + 1)
      row.push(least)
    }
    rows.push(row)
  }
  return rows[a.length]![b.length]!
}
