import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import { refuseSheet } from './sheet-refusal.ts'

/** A class’s sheet unpacks to well under 1 MB; this leaves room and keeps a small computer alive. */
export const UNPACKED_MAX_BYTES = 64 * 1024 * 1024
const PARTS_MAX = 2000

export interface WorkbookParts {
  format: 'xlsx' | 'ods'
  /** the same workbook, its parts no larger than was checked */
  bytes: Uint8Array
  notes: string[]
}

/**
 * Opens the zip file that a workbook is. The sizes in its directory are added up before anything is unpacked, and no part
 * is unpacked beyond the size it gave there.
 * @returns refusals E_SHEET_SIZE, E_SHEET_DAMAGED, or E_SHEET_KIND for a zip file that is no workbook
 */
export function openWorkbook(packed: Uint8Array): WorkbookParts | Refusal {
  const parts = unpack(packed)
  if (isRefusal(parts)) return parts
  if (parts['xl/workbook.xml']) return { format: 'xlsx', bytes: zipSync(parts, { level: 0 }), notes: [] }
  const content = parts['content.xml']
  const isOds =
    content && strFromU8(parts['mimetype'] ?? new Uint8Array()).includes('opendocument.spreadsheet')
  if (!isOds)
    return refuseSheet(
      'E_SHEET_KIND',
      'This is a packed file, but no workbook is in it. Choose the .xlsx or .ods file itself.',
    )
  const { xml, count } = percentCellsAsPercent(strFromU8(content))
  return {
    format: 'ods',
    bytes: zipSync({ ...parts, 'content.xml': strToU8(xml) }, { level: 0 }),
    notes: count === 0 ? [] : [percentNote(count)],
  }
}

export function percentNote(count: number): string {
  return `${count} ${count === 1 ? 'cell is' : 'cells are'} shown as a percentage in the sheet and read so: 0.35 shown as 35 % is 35.`
}

function unpack(packed: Uint8Array): Record<string, Uint8Array> | Refusal {
  let unpackedBytes = 0
  let count = 0
  try {
    unzipSync(packed, {
      filter: ({ originalSize }) => {
        unpackedBytes += originalSize
        count++
        return false
      },
    })
    if (unpackedBytes > UNPACKED_MAX_BYTES || count > PARTS_MAX)
      return refuseSheet(
        'E_SHEET_SIZE',
        `This workbook would unpack to ${Math.ceil(unpackedBytes / 1e6)} MB in ${count} parts, too much for a table of quadrats. Copy the table alone into a new workbook.`,
      )
    return unzipSync(packed)
  } catch {
    return refuseSheet(
      'E_SHEET_DAMAGED',
      'This workbook breaks off or is damaged. Save it again from the spreadsheet, or save it as CSV.',
    )
  }
}

/** OpenDocument stores 35 % as 0.35 of the type percentage (ODF 1.3 part 3, 19.387); the class typed 35. */
function percentCellsAsPercent(xml: string): { xml: string; count: number } {
  let count = 0
  const changed = xml.replace(/<table:table-cell\b(?:[^>"']|"[^"]*"|'[^']*')*>/g, (tag) => {
    if (!tag.includes('office:value-type="percentage"')) return tag
    return tag.replace(/office:value="([^"]*)"/, (_, value) => {
      count++
      return `office:value="${asPercent(Number(value))}"`
    })
  })
  return { xml: changed, count }
}

/** 0.35 → 35, without the dust of binary fractions. */
export function asPercent(fraction: number): number {
  return Number((fraction * 100).toPrecision(12))
}
