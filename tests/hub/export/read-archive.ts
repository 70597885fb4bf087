import { parse } from 'csv-parse/sync'
import { unzipSync } from 'fflate'

/** The files of an archive as text, read by a library that did not write them. */
export function filesOf(archive: Uint8Array): Record<string, string> {
  return Object.fromEntries(
    Object.entries(unzipSync(archive)).map(([path, bytes]) => [path, Buffer.from(bytes).toString('utf8')]),
  )
}

export type CsvRow = Record<string, string>

export function rowsOf(text: string | undefined): CsvRow[] {
  return parse(text ?? '', { columns: true, record_delimiter: '\r\n' })
}

export function headingsOf(text: string | undefined): string[] {
  return (parse(text ?? '', { to: 1, record_delimiter: '\r\n' }) as string[][])[0] ?? []
}
