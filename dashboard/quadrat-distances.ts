/** A number as people type it, with a point or a comma; null when it is none. */
export function readNumber(text: string): number | null {
  const trimmed = text.trim().replace(',', '.')
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(trimmed)) return null
  return Number(trimmed)
}

interface Layout {
  layout: 'every' | 'list'
  lengthMetres: string
  firstAt: string
  everyMetres: string
  distances: string
}

/** A slip of the finger must not draw ten thousand squares. */
const QUADRATS_AT_MOST = 500

/** Where the quadrats lie, from the zero mark on; empty when that cannot be told from what is typed. */
export function quadratDistances(form: Layout): number[] {
  if (form.layout === 'list') {
    const distances = typedDistances(form.distances)
    return distances.includes(null) ? [] : (distances as number[]).sort((one, other) => one - other)
  }
  const length = readNumber(form.lengthMetres)
  const first = readNumber(form.firstAt)
  const every = readNumber(form.everyMetres)
  if (length === null || first === null || every === null || every <= 0 || first < 0 || first > length)
    return []
  const count = Math.min(QUADRATS_AT_MOST, Math.floor((length - first) / every + 1e-9) + 1)
  return Array.from({ length: count }, (_, index) => Number((first + index * every).toFixed(3)))
}

/** Distances set apart by spaces, commas or semicolons; null for what is not a number. */
export function typedDistances(text: string): (number | null)[] {
  return text
    .split(/[\s,;]+/)
    .filter((part) => part !== '')
    .map(readNumber)
}
