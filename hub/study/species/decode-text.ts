import type { Refusal } from '../../../calibration/index.ts'
import { refuseSheet } from './sheet-refusal.ts'

export type TextEncoding = 'UTF-8' | 'UTF-16 LE' | 'UTF-16 BE' | 'Windows-1252'

const byteOrderMarks: readonly [TextEncoding, readonly number[]][] = [
  ['UTF-8', [0xef, 0xbb, 0xbf]],
  ['UTF-16 LE', [0xff, 0xfe]],
  ['UTF-16 BE', [0xfe, 0xff]],
]

/**
 * Bytes of a text file to text, without its byte order mark. The mark decides; without one, zero bytes between letters
 * mean UTF-16; bytes that are valid UTF-8 are UTF-8; anything else is read as Windows-1252, of which Latin-1 is a part.
 * @returns a refusal E_SHEET_KIND when control characters show that it is no text
 * @see WHATWG Encoding Standard: the label latin1 means windows-1252
 */
export function decodeText(bytes: Uint8Array): { text: string; encoding: TextEncoding } | Refusal {
  const encoding = encodingOf(bytes)
  const text = new TextDecoder(encoding.replace(/^UTF-16 ([LB]E)$/, 'utf-16$1')).decode(bytes)
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what tells bytes from text
  if (/[\u0000-\u0008\u000e-\u001f]/.test(text))
    return refuseSheet(
      'E_SHEET_KIND',
      'This is not a table as text: it has characters that no text has. Save it as CSV, .xlsx or .ods and try again.',
    )
  return { text, encoding }
}

function encodingOf(bytes: Uint8Array): TextEncoding {
  const marked = byteOrderMarks.find(([, mark]) => mark.every((byte, place) => bytes[place] === byte))
  if (marked) return marked[0]
  const zeros = [0, 0]
  const seen = Math.min(bytes.length, 4096)
  for (let place = 0; place < seen; place++) if (bytes[place] === 0) zeros[place % 2]!++
  if (zeros[1]! > seen / 5 && zeros[0] === 0) return 'UTF-16 LE'
  if (zeros[0]! > seen / 5 && zeros[1] === 0) return 'UTF-16 BE'
  return isUtf8(bytes) ? 'UTF-8' : 'Windows-1252'
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return true
  } catch {
    return false
  }
}
