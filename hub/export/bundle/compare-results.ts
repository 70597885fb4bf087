import type { BundleFaults } from './verdict.ts'

/** Sums may be added in another order on another machine: this far apart, relatively, counts as the same. */
const RELATIVE = 1e-9

export function isSameNumber(one: number | null, other: number | null): boolean {
  if (one === null || other === null) return one === other
  if (one === other || (Number.isNaN(one) && Number.isNaN(other))) return true
  return Math.abs(one - other) <= RELATIVE * Math.max(Math.abs(one), Math.abs(other))
}

/**
 * Compares a stored result with the same result worked out again, number by number, and names every place that differs.
 * @param where  path of the file, then of the place in it
 * @returns how many numbers and texts were compared
 */
export function compareResults(where: string, before: unknown, now: unknown, faults: BundleFaults): number {
  if (isList(before) && isList(now)) {
    if (before.length !== now.length)
      faults.add('result', where, `It has ${before.length} entries, worked out again ${now.length}.`)
    return sumOf(before.slice(0, now.length), (each, index) =>
      compareResults(`${where}[${nameOf(each) ?? index}]`, each, now[index], faults),
    )
  }
  if (isRecord(before) && isRecord(now)) {
    const keys = [...new Set([...Object.keys(before), ...Object.keys(now)])]
    return sumOf(keys, (key) => compareResults(`${where}.${key}`, before[key], now[key], faults))
  }
  const isSame =
    typeof before === 'number' && typeof now === 'number' ? isSameNumber(before, now) : before === now
  if (!isSame) {
    const by =
      typeof before === 'number' && typeof now === 'number' ? `, a difference of ${now - before}` : ''
    faults.add('result', where, `It is ${textOf(before)}, worked out again ${textOf(now)}${by}.`)
  }
  return 1
}

function isList(value: unknown): value is unknown[] {
  return Array.isArray(value)
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** What an entry of a list is about, so that a person finds it: its quadrat and quantity, its factor and species. */
function nameOf(entry: unknown): string | null {
  if (!isRecord(entry)) return null
  const parts = ['quadrat', 'quantity', 'factor', 'species', 'taxon', 'label']
    .map((key) => entry[key])
    .filter((part) => typeof part === 'string')
  return parts.length === 0 ? null : parts.join(', ')
}

function textOf(value: unknown): string {
  const text = value === undefined ? 'not there' : JSON.stringify(value)
  return text.length > 80 ? `${text.slice(0, 79)}…` : text
}

function sumOf<T>(list: readonly T[], count: (each: T, index: number) => number): number {
  return list.reduce((sum, each, index) => sum + count(each, index), 0)
}
