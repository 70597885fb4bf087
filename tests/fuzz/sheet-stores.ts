import { isRefusal } from '../../calibration/index.ts'
import { readAnimals } from '../../hub/study/species/read-animals.ts'
import { readSpeciesTable } from '../../hub/study/species/read-species-table.ts'

/** Reads a sheet as species and as animals. @throws Error when either would store a number that none could have counted */
export function refuseWildNumbers(grid: Parameters<typeof readSpeciesTable>[0]): void {
  const table = readSpeciesTable(grid)
  if (!isRefusal(table))
    for (const { value } of table.records)
      if (!(Number.isFinite(value) && value >= 0)) throw new Error(`stores ${value}`)
  const animals = readAnimals(grid)
  if (!isRefusal(animals))
    for (const { count } of animals.records)
      if (!Number.isSafeInteger(count)) throw new Error(`stores ${count}`)
}
