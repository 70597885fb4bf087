import { isRefusal, type Refusal } from '../../calibration/index.ts'
import type { AnimalTable, SpeciesAnswers, SpeciesTable } from '../contract/species.ts'
import { readAnimals } from './species/read-animals.ts'
import { readSheet } from './species/read-sheet.ts'
import { readSpeciesTable } from './species/read-species-table.ts'

/** A workbook with several sheets asks which one; the answer has this name among the others. */
export const SHEET_ANSWER = 'sheet'

/** What a sheet of species says, by its bytes and the answers given; or a refusal in words. */
export async function readSpeciesSheet(
  { bytes, name, answers }: { bytes: Uint8Array; name: string; answers: SpeciesAnswers },
  quadratLabels: readonly string[],
): Promise<SpeciesTable | Refusal> {
  const sheet = await readSheet(bytes, name, answers[SHEET_ANSWER])
  if (isRefusal(sheet)) return sheet
  if ('sheetNames' in sheet) return askWhichSheet(name, sheet.sheetNames)
  const table = readSpeciesTable(sheet.grid, { answers, quadratLabels })
  return isRefusal(table) ? table : { ...table, notes: [...sheet.notes, ...table.notes] }
}

/** The same for a sheet of animals. */
export async function readAnimalSheet(sheet: {
  bytes: Uint8Array
  name: string
  answers: SpeciesAnswers
}): Promise<AnimalTable | Refusal> {
  const read = await readSheet(sheet.bytes, sheet.name, sheet.answers[SHEET_ANSWER])
  if (isRefusal(read)) return read
  if ('sheetNames' in read) {
    const [first] = read.sheetNames
    return readAnimalSheet({ ...sheet, answers: { ...sheet.answers, [SHEET_ANSWER]: first! } })
  }
  const table = readAnimals(read.grid)
  return isRefusal(table) ? table : { ...table, notes: [...read.notes, ...table.notes] }
}

/** A table with nothing in it but the question. */
function askWhichSheet(name: string, sheetNames: readonly string[]): SpeciesTable {
  return {
    reading: `${name} has ${sheetNames.length} sheets.`,
    measure: 'cover-percent',
    blanks: null,
    quadrats: [],
    taxa: [],
    records: [],
    ground: [],
    notRecorded: [],
    questions: [
      {
        id: SHEET_ANSWER,
        text: 'Which sheet has the species?',
        choices: sheetNames.map((value) => ({ value, text: value })),
        answer: null,
      },
    ],
    repairs: [],
    faults: [],
    notes: [],
  }
}
