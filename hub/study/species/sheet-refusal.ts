import type { Refusal } from '../../../calibration/index.ts'

/** Why a sheet cannot be read at all. Messages are written where it happens. */
export const sheetRefusals = {
  E_SHEET_EMPTY: 'there is nothing in the file, or headings only',
  E_SHEET_SIZE: 'the file, or what is packed in it, is too large',
  E_SHEET_KIND: 'the file is no table: neither CSV nor .xlsx nor .ods',
  E_SHEET_DAMAGED: 'the file breaks off or breaks the rules of its form',
  E_SHEET_UNKNOWN: 'the workbook has no sheet of that name',
  E_SHEET_LAYOUT: 'quadrats and species cannot be found in the table',
  E_READINGS: 'the table of readings has no quadrats, no values, or is not the clean set',
  E_JOIN_EMPTY: 'no quadrat of the readings is a quadrat of the species',
} as const

export type SheetRefusalCode = keyof typeof sheetRefusals

export function refuseSheet(code: SheetRefusalCode, message: string): Refusal {
  return { refused: true, code, message }
}
