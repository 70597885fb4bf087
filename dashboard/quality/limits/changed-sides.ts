import { csvRows } from '../csv/csv.ts'

/** Readings that were clean before and are left out now, and the other way round. */
export interface ChangedSides {
  leftOut: number
  letIn: number
}

/**
 * Compares what was left out before with what is left out after, reading by reading.
 * @param before  CSV of the readings left out, with a heading that names `time`, `probe` and `signal`
 * @param testedUpTo  RFC 3339 in UTC: what is newer had not been tested at all before, so being left out is no change
 */
export function changedSides(before: string, after: string, testedUpTo: string): ChangedSides {
  const counts = new Map<string, number>()
  for (const key of keysOf(before)) counts.set(key, (counts.get(key) ?? 0) - 1)
  for (const key of keysOf(after)) counts.set(key, (counts.get(key) ?? 0) + 1)
  let leftOut = 0
  let letIn = 0
  for (const [key, count] of counts)
    if (count < 0) letIn -= count
    else if (timeOf(key) <= testedUpTo) leftOut += count
  return { leftOut, letIn }
}

function timeOf(key: string): string {
  return key.slice(0, key.indexOf('\n'))
}

function keysOf(csv: string): string[] {
  const [heading = [], ...rows] = csvRows(csv)
  const columns = ['time', 'probe', 'signal'].map((name) => heading.indexOf(name))
  return rows.map((row) => columns.map((column) => row[column] ?? '').join('\n'))
}
