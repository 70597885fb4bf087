import type { Refusal } from '../../../calibration/index.ts'
import { refuseSheet } from './sheet-refusal.ts'

const PICTURE = 'a picture'
/** First bytes, from a place on, of what cannot be a table. */
const KNOWN: readonly [start: string, from: number, what: string][] = [
  ['\xd0\xcf\x11\xe0', 0, 'an older workbook (.xls) or one locked with a password'],
  ['%PDF', 0, 'a PDF'],
  ['\x89PNG', 0, PICTURE],
  ['\xff\xd8\xff', 0, PICTURE],
  ['GIF8', 0, PICTURE],
  ['WEBP', 8, PICTURE],
  ['ftyp', 4, PICTURE],
  ['<', 0, 'a web page or another marked-up text'],
  ['{', 0, 'JSON'],
]

export function startsWith(bytes: Uint8Array, start: string, from = 0): boolean {
  return [...start].every((letter, place) => bytes[from + place] === letter.charCodeAt(0))
}

function kindOf(bytes: Uint8Array): string | null {
  return KNOWN.find(([start, from]) => startsWith(bytes, start, from))?.[2] ?? null
}

/** @returns null where it may be a table: text, .xlsx or .ods */
export function kindRefused(bytes: Uint8Array, fileName: string): Refusal | null {
  const what = kindOf(bytes)
  if (what === null) return null
  return refuseSheet(
    'E_SHEET_KIND',
    `${fileName} is ${what}, not a table. Open it in a spreadsheet and save it as .xlsx, .ods or CSV.`,
  )
}

/** Refused at the door, because what is kept goes along in every bundle: a photo of people has no business there. */
export function pictureRefused(bytes: Uint8Array, fileName: string): Refusal | null {
  return kindOf(bytes) === PICTURE ? kindRefused(bytes, fileName) : null
}
