import type { SpeciesFault, SpeciesMeasure, SpeciesRecord, SpeciesTable } from '../../contract/species.ts'

/** Layers of plants may add up to more than 100 %; beyond this it is a typing error. Common practice, no source. */
export const SUM_MAX_PERCENT = 200

/** The cover of each quadrat added up, ground included: over 100 % is told as layers, over 200 % is a fault. */
export function checkSums(
  records: readonly SpeciesRecord[],
  quadrats: SpeciesTable['quadrats'],
  measure: SpeciesMeasure,
): { faults: SpeciesFault[]; notes: string[]; impossible: Set<string> } {
  const sums = new Map<string, number>()
  if (measure === 'cover-percent')
    for (const { quadrat, value } of records) sums.set(quadrat, (sums.get(quadrat) ?? 0) + value)
  const faults: SpeciesFault[] = []
  const notes: string[] = []
  for (const { label, cell } of quadrats) {
    const sum = Number((sums.get(label) ?? 0).toPrecision(12))
    if (sum > SUM_MAX_PERCENT)
      faults.push({
        cell,
        written: label,
        message: `the covers of ${label} add up to ${sum} %, more than layers explain: look for a wrong number`,
      })
    else if (sum > 100) notes.push(`${label} adds up to ${sum} %: accepted, plants grow in layers.`)
  }
  const impossible = new Set([...sums].filter(([, sum]) => sum > SUM_MAX_PERCENT).map(([label]) => label))
  return { faults, notes, impossible }
}
