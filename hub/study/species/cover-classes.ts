/** A class of a cover-abundance scale: bounds and mid-point in % of the quadrat. */
export interface CoverClass {
  code: string
  fromPercent: number
  toPercent: number
  midPercent: number
}

/**
 * Braun-Blanquet, with class 2 divided after Reichelt & Wilmanns. Bounds: Braun-Blanquet, J. (1964) Pflanzensoziologie,
 * 3rd ed.; Reichelt, G. & Wilmanns, O. (1973) Vegetationsgeographie: from memory; the mid-points 2.5 of class 1 and
 * 37.5, 62.5, 87.5 of classes 3 to 5 agree with stored public tables, those of r and + are conventions.
 * The classes are an order: rank them, do not average them.
 */
export const braunBlanquetClasses: readonly CoverClass[] = [
  { code: 'r', fromPercent: 0, toPercent: 1, midPercent: 0.1 },
  { code: '+', fromPercent: 0, toPercent: 1, midPercent: 0.5 },
  { code: '1', fromPercent: 0, toPercent: 5, midPercent: 2.5 },
  { code: '2', fromPercent: 5, toPercent: 25, midPercent: 15 },
  { code: '2m', fromPercent: 0, toPercent: 5, midPercent: 2.5 },
  { code: '2a', fromPercent: 5, toPercent: 12.5, midPercent: 8.75 },
  { code: '2b', fromPercent: 12.5, toPercent: 25, midPercent: 18.75 },
  { code: '3', fromPercent: 25, toPercent: 50, midPercent: 37.5 },
  { code: '4', fromPercent: 50, toPercent: 75, midPercent: 62.5 },
  { code: '5', fromPercent: 75, toPercent: 100, midPercent: 87.5 },
]

/**
 * Domin, in the form of Dahl & Hadač (1941) used for national vegetation surveys. Bounds from memory; the mid-point is
 * the middle of the bounds, for + (a single plant) the trace 0.1.
 * The classes are an order: rank them, do not average them.
 */
export const dominClasses: readonly CoverClass[] = [
  { code: '+', fromPercent: 0, toPercent: 1, midPercent: 0.1 },
  { code: '1', fromPercent: 0, toPercent: 1, midPercent: 0.5 },
  { code: '2', fromPercent: 0, toPercent: 1, midPercent: 0.5 },
  { code: '3', fromPercent: 1, toPercent: 4, midPercent: 2.5 },
  { code: '4', fromPercent: 4, toPercent: 10, midPercent: 7 },
  { code: '5', fromPercent: 11, toPercent: 25, midPercent: 18 },
  { code: '6', fromPercent: 26, toPercent: 33, midPercent: 29.5 },
  { code: '7', fromPercent: 34, toPercent: 50, midPercent: 42 },
  { code: '8', fromPercent: 51, toPercent: 75, midPercent: 63 },
  { code: '9', fromPercent: 76, toPercent: 90, midPercent: 83 },
  { code: '10', fromPercent: 91, toPercent: 100, midPercent: 95.5 },
]

/** The class of a code as typed (`2A`, ` + `), or undefined. */
export function coverClass(classes: readonly CoverClass[], written: string): CoverClass | undefined {
  const code = written.normalize('NFKC').trim().toLowerCase()
  return classes.find((known) => known.code === code)
}
