import { readFile } from 'node:fs/promises'
import { basename, resolve } from 'node:path'
import { isRefusal, type Refusal } from '../../calibration/index.ts'
import type { SpeciesAnswers, SpeciesTable } from '../contract/species.ts'
import { HubError, messageOf } from '../errors.ts'
import {
  checkAnswers,
  type JoinOptions,
  labelAnswers,
  optionFor,
  tableAnswers,
} from '../study/species/join-answers.ts'
import { type Joined, joinSpecies } from '../study/species/join-species.ts'
import { joinedCsv } from '../study/species/joined-csv.ts'
import { readReadings } from '../study/species/read-readings.ts'
import { readSheet } from '../study/species/read-sheet.ts'
import { readSpeciesTable } from '../study/species/read-species-table.ts'
import { refuseSheet } from '../study/species/sheet-refusal.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { writeWhole } from './write-whole.ts'

export const join: Command = {
  name: 'join',
  summary: 'Join readings with the species of the same quadrats, from files alone',
  usage: `tussock join --readings clean.csv --species species.xlsx --out joined.csv [options]

Readings are the hub’s clean readings, or any table with a column of quadrats and columns of numbers. Soil pH and light are
joined as the median of a quadrat, everything else as the mean; the heading says which, and _n how many. Species may be
typed as CSV, .xlsx or .ods: a list, quadrats down, species down, or the marks of a transect.

What only a person can say is asked: the questions are printed, each with the option that answers it, nothing is written,
and the exit code is 2.

  --out FILE           one row for each quadrat: its factors, then its species; empty means not recorded, 0 means absent
  --long FILE          one row for each quadrat and species
  --unmatched FILE     what did not join, and why
  --blank absent|not-recorded       what a blank means
  --measure cover-percent|grid-hits|presence|touches|count|braun-blanquet|domin
  --out-of N           points in the grid (or marks), for hits
  --layout long|quadrats-down|quadrats-across|marks-down
  --trace PERCENT      what + and <1 stand for (0.5)
  --sheet NAME         of a workbook with several sheets
  --survey ID          of readings of several surveys
  --confirm "Q1O=Q10"  a label that looks like another is that one; "Q1O=no" if it is not. May be repeated
  --faults leave-out   go on without cells that cannot be used
  --answer "ID=CHOICE" any other question. May be repeated`,

  async run(args) {
    const { values, positionals } = readOptions(args, {
      readings: { type: 'string' },
      species: { type: 'string' },
      out: { type: 'string' },
      long: { type: 'string' },
      unmatched: { type: 'string' },
      blank: { type: 'string' },
      measure: { type: 'string' },
      'out-of': { type: 'string' },
      layout: { type: 'string' },
      trace: { type: 'string' },
      sheet: { type: 'string' },
      survey: { type: 'string' },
      confirm: { type: 'string', multiple: true, default: [] },
      faults: { type: 'string' },
      answer: { type: 'string', multiple: true, default: [] },
    })
    if (positionals.length > 0)
      throw new HubError(
        'E_COMMAND',
        `join takes its files by --readings and --species, not "${positionals[0]}".`,
      )
    const files = namedFiles(values)
    const answers = tableAnswers(values)
    const read = await readBoth(files, values, answers)
    if (isRefusal(read)) return refused(read)
    const { readings, table, sheetNotes } = read
    const given = labelAnswers(values)
    const joined = joinSpecies(readings, table, given)
    checkAnswers(answers, given, table.questions, readings.quadrats)
    printNotes([...sheetNotes, table.reading, ...readings.notes, ...table.notes], table)
    const open = [...table.questions, ...joined.questions].filter(({ answer }) => answer === null)
    if (open.length > 0) {
      printLine(
        `\nNothing was written: ${open.length} ${open.length === 1 ? 'question is' : 'questions are'} open.`,
      )
      for (const { id, text, choices } of open) {
        printLine(`\n${text}`)
        for (const choice of choices.length > 0 ? choices : [{ value: 'NUMBER', text: 'a whole number' }])
          printLine(`  ${optionFor(id, choice.value)}    ${choice.text}`)
      }
      return 2
    }
    if (joined.labels.matched.length === 0)
      return refused(
        refuseSheet(
          'E_JOIN_EMPTY',
          `No quadrat of the readings (${readings.quadrats.slice(0, 6).join(', ')}) is a quadrat of the species (${table.quadrats
            .map(({ label }) => label)
            .slice(0, 6)
            .join(', ')}). Correct the labels, or say --layout.`,
        ),
      )
    await writeJoined(files, joined)
    for (const sentence of joined.explanation) printLine(sentence)
    return 0
  },
}

type Files = { readings: string; species: string; out: string; long?: string; unmatched?: string }

function namedFiles(values: JoinOptions): Files {
  const { readings, species, out, long, unmatched } = values
  if (readings === undefined || species === undefined || out === undefined)
    throw new HubError('E_COMMAND', 'join needs --readings FILE, --species FILE and --out FILE.')
  const written = [out, long, unmatched].filter((path) => path !== undefined)
  const paths = [readings, species, ...written].map((path) => resolve(path))
  const twice = written.find((path) => paths.filter((other) => other === resolve(path)).length > 1)
  if (twice !== undefined)
    throw new HubError('E_COMMAND', `${twice} is named twice: what is written needs a file of its own.`)
  return {
    readings,
    species,
    out,
    ...(long !== undefined && { long }),
    ...(unmatched !== undefined && { unmatched }),
  }
}

async function readBoth(files: Files, values: JoinOptions, answers: SpeciesAnswers) {
  const [readingsBytes, speciesBytes] = [await bytesOf(files.readings), await bytesOf(files.species)]
  const readings = await readReadings(readingsBytes, basename(files.readings), values.survey)
  if (isRefusal(readings)) return readings
  const sheet = await readSheet(speciesBytes, basename(files.species), values.sheet)
  if (isRefusal(sheet)) return sheet
  if ('sheetNames' in sheet) return sheetQuestion(sheet.sheetNames)
  const table = readSpeciesTable(sheet.grid, { answers, quadratLabels: readings.quadrats })
  return isRefusal(table) ? table : { readings, table, sheetNotes: sheet.notes }
}

/** Which sheet is a question like the others; without its answer there is nothing to read yet. */
function sheetQuestion(sheetNames: readonly string[]): Refusal {
  return refuseSheet(
    'E_SHEET_UNKNOWN',
    `The workbook has several sheets. Which one? ${sheetNames.map((name) => `--sheet "${name}"`).join(' or ')}`,
  )
}

async function bytesOf(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path)
  } catch (error) {
    throw new HubError('E_COMMAND', `${path} cannot be read (${messageOf(error)}).`, { cause: error })
  }
}

/** The sheet is not chosen yet: a question, exit 2. Anything else that cannot be read: exit 1. */
function refused({ code, message }: Refusal): number {
  process.stderr.write(`${code}: ${message}\n`)
  return code === 'E_SHEET_UNKNOWN' ? 2 : 1
}

function printNotes(notes: readonly string[], { repairs, faults }: SpeciesTable): void {
  for (const note of notes) printLine(note)
  for (const { cell, from, to, why } of repairs) printLine(`${cell}: “${from}” read as ${to}: ${why}.`)
  for (const { cell, written, message } of faults)
    printLine(`${cell}: “${written}” cannot be used: ${message}.`)
}

async function writeJoined(files: Files, joined: Joined): Promise<void> {
  for (const [path, table] of [
    [files.out, joined.wide],
    [files.long, joined.long],
    [files.unmatched, joined.unmatched],
  ] as const) {
    if (path !== undefined) await writeWhole(path, joinedCsv(table))
  }
}
