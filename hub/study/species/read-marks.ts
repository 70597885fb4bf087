import type { SpeciesFault } from '../../contract/species.ts'
import { plainText, readNumber } from './read-value.ts'
import type { RecognisedLayout } from './recognise-layout.ts'
import { cellAddress, type SheetGrid } from './sheet-grid.ts'
import { taxonKey, tidyTaxon } from './taxon-name.ts'
import type { TransectMark } from './transect-touches.ts'

export interface SheetMark extends TransectMark {
  zone: string | null
  /** nothing was typed: not even “bare” or a dash */
  isEmpty: boolean
  address: string
}

/** The marks of a sheet, in its order. A mark that is no number, or comes twice, is a fault. */
export function readMarks(
  grid: SheetGrid,
  { headingRow, labelColumn, taxonColumn, zoneColumn }: RecognisedLayout,
): { marks: SheetMark[]; faults: SpeciesFault[] } {
  const marks: SheetMark[] = []
  const faults: SpeciesFault[] = []
  const seenMetres = new Set<number>()
  const firstNames = new Map<string, string>()
  const nameOf = (typed: string) => {
    const name = firstNames.get(taxonKey(typed)) ?? typed
    firstNames.set(taxonKey(typed), name)
    return name
  }
  for (let row = headingRow + 1; row < grid.rows.length; row++) {
    const cells = grid.rows[row]!
    if (cells.every(({ kind }) => kind === 'blank')) continue
    const written = cells[labelColumn]!.text
    const metres = readNumber(written.replace(/\s*m$/i, ''))
    const text = cells[taxonColumn]?.text ?? ''
    const fault = (message: string) => faults.push({ cell: cellAddress(row, labelColumn), written, message })
    if (metres === null) fault('a mark is a distance in metres, such as 3.5')
    else if (seenMetres.has(metres)) fault('this mark was typed before')
    else {
      seenMetres.add(metres)
      marks.push({
        metres,
        taxa: [...new Set(splitTouches(text).map(nameOf))],
        zone: cells[zoneColumn]?.text.trim() || null,
        isEmpty: text.trim() === '',
        address: cellAddress(row, taxonColumn),
      })
    }
  }
  return { marks, faults }
}

/** “bramble/ivy”, “bramble + ivy”, “bramble and ivy”; “nothing” and a dash are no taxa. */
function splitTouches(text: string): string[] {
  return text
    .split(/[/;,+&\n]|\band\b/)
    .map(tidyTaxon)
    .filter((name) => name !== '' && !/^(?:[-–—.0]|nothing|none)$/.test(plainText(name)))
}
