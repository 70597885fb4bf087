export interface TransectMark {
  metres: number
  /** what touches it; empty when nothing does */
  taxa: readonly string[]
}

export interface TouchZone {
  name: string
  /** both ends included; a mark at the border of two zones is in the first of them */
  fromMetres: number
  toMetres: number
}

export interface ZoneTouches {
  zone: string
  taxon: string
  touched: number
  marks: number
  /** touched ÷ marks, 0–100 */
  percent: number
}

/**
 * Marks on a tape, both ends included: length ÷ spacing + 1. 20 m at 0.5 m has 41, not 40.
 * @param lengthMetres,spacingMetres  above 0
 */
export function marksOnTape(lengthMetres: number, spacingMetres: number): number {
  return Math.floor(lengthMetres / spacingMetres + 1e-9) + 1
}

/** The marks of each zone, in order. A mark in none of them is in no list. */
export function marksByZone<Mark extends TransectMark>(
  marks: readonly Mark[],
  zones: readonly TouchZone[],
): { zone: string; marks: Mark[] }[] {
  const zoneOf = ({ metres }: Mark) =>
    zones.find(({ fromMetres, toMetres }) => metres >= fromMetres - 1e-9 && metres <= toMetres + 1e-9)
  return zones.map((zone) => ({ zone: zone.name, marks: marks.filter((mark) => zoneOf(mark) === zone) }))
}

/**
 * Marks touched by each taxon, in % of the marks visited in a zone. A mark touched by two taxa counts for both, so the
 * sum over taxa may pass 100 %.
 * @param taxa  those to tell, touched or not
 * @returns nothing for a zone without marks
 */
export function touchesInZone(
  zone: string,
  marks: readonly TransectMark[],
  taxa: readonly string[],
): ZoneTouches[] {
  if (marks.length === 0) return []
  return taxa.map((taxon) => {
    const touched = marks.filter((mark) => mark.taxa.includes(taxon)).length
    return { zone, taxon, touched, marks: marks.length, percent: (100 * touched) / marks.length }
  })
}
