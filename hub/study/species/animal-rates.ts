import type { AnimalRecord } from '../../contract/species.ts'

export interface AnimalRate {
  method: string
  taxon: string
  count: number
  /** traps of this method that were looked at, those that held nothing included */
  traps: number
  perTrap: number
  /** hours the traps stood, added up; null when one of them does not say */
  trapHours: number | null
  perTrapHour: number | null
}

/**
 * Catches made comparable: animals for each trap and for each hour a trap stood. Methods are never pooled: a pitfall trap
 * and a sweep net catch different animals. A trap looked at several times is one trap, its hours added up.
 */
export function animalRates(records: readonly AnimalRecord[]): AnimalRate[] {
  const methods = [...new Set(records.map(({ method }) => method))]
  return methods.flatMap((method) => {
    const catches = records.filter((record) => record.method === method)
    const visits = visitsOf(catches)
    const traps = [
      ...new Map(visits.map(({ station, effort }) => [station, effort.traps ?? 1])).values(),
    ].reduce((sum, count) => sum + count, 0)
    const trapHours = visits.every(({ effort }) => effort.hours !== undefined)
      ? visits.reduce((sum, { effort }) => sum + effort.hours! * (effort.traps ?? 1), 0)
      : null
    const taxa = [...new Set(catches.flatMap(({ taxon }) => taxon ?? []))]
    return taxa.map((taxon) => {
      const count = catches.reduce((sum, record) => sum + (record.taxon === taxon ? record.count : 0), 0)
      return {
        method,
        taxon,
        count,
        traps,
        perTrap: count / traps,
        trapHours,
        perTrapHour: trapHours === null ? null : count / trapHours,
      }
    })
  })
}

/** Several taxa in one trap at one time share one effort, which counts once. */
function visitsOf(catches: readonly AnimalRecord[]): AnimalRecord[] {
  const visits = new Map<string, AnimalRecord>()
  for (const caught of catches) {
    const { setAt, checkedAt, hours } = caught.effort
    visits.set(JSON.stringify([caught.station, setAt, checkedAt, hours]), caught)
  }
  return [...visits.values()]
}
