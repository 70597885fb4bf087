import { createReadStream } from 'node:fs'
import { join } from 'node:path'
import { pipeline } from 'node:stream'
import { parse } from 'csv-parse'
import { BUNDLE_PATHS, type READING_HEADINGS } from './bundle-form.ts'

/** A row of readings-all.csv: text, empty where there is nothing. */
export type WrittenReading = Record<(typeof READING_HEADINGS)[number], string>

/** The rows of readings-all.csv of an unpacked bundle, as they are read. @throws Error when it is not there or no CSV */
export async function* writtenReadings(from: string): AsyncGenerator<WrittenReading> {
  const rows = parse({ columns: true })
  // a fault of the file ends the rows too, and is thrown where they are read
  pipeline(createReadStream(join(from, BUNDLE_PATHS.readings)), rows, () => undefined)
  for await (const row of rows) yield row as WrittenReading
}

/** The number in a cell; null where it is empty. */
export function numberIn(cell: string): number | null {
  return cell === '' ? null : Number(cell)
}
