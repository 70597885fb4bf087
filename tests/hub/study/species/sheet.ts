import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { isRefusal, type Refusal } from '../../../../calibration/index.ts'
import type { SpeciesTable } from '../../../../hub/contract/species.ts'
import { type ReadSheet, readSheet } from '../../../../hub/study/species/read-sheet.ts'
import { readSpeciesTable, type TableWish } from '../../../../hub/study/species/read-species-table.ts'

export function referencePath(name: string): string {
  return fileURLToPath(new URL(`../../../reference/${name}`, import.meta.url))
}

export function referenceBytes(name: string): Uint8Array {
  return readFileSync(referencePath(name))
}

export async function sheetOf(
  content: string | Uint8Array,
  name = 'typed.csv',
  sheet?: string,
): Promise<ReadSheet> {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content
  const read = await readSheet(bytes, name, sheet)
  if (isRefusal(read)) throw new Error(read.message)
  if ('sheetNames' in read) throw new Error(`several sheets: ${read.sheetNames.join(', ')}`)
  return read
}

export async function refusalOf(
  content: string | Uint8Array,
  name = 'typed.csv',
  sheet?: string,
): Promise<Refusal> {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content
  const read = await readSheet(bytes, name, sheet)
  if (!isRefusal(read)) throw new Error('it was read')
  return read
}

/** The table typed as text, with answers. */
export async function tableOf(
  text: string,
  answers: Record<string, string> = {},
  wish: TableWish = {},
): Promise<SpeciesTable> {
  const table = readSpeciesTable((await sheetOf(text)).grid, { ...wish, answers })
  if (isRefusal(table)) throw new Error(table.message)
  return table
}

export function valuesOf(table: SpeciesTable, taxon: string): Record<string, number> {
  return Object.fromEntries(
    table.records.filter((record) => record.taxon === taxon).map(({ quadrat, value }) => [quadrat, value]),
  )
}

export function openQuestions({ questions }: SpeciesTable): string[] {
  return questions.filter(({ answer }) => answer === null).map(({ id }) => id)
}
