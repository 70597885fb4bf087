import { createHash } from 'node:crypto'
import { isRefusal } from '../../calibration/index.ts'
import { rfc3339 } from '../clock.ts'
import type { SpeciesTable } from '../contract/species.ts'
import type { ExposedCatch, StudyJoin, StudySheet, StudyStatistics, StudySummary } from '../contract/study.ts'
import type { SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import type { SheetKept } from '../store/sheet-table.ts'
import type { Timelines } from '../survey/timeline.ts'
import { exposedCatches } from './exposure.ts'
import { readAnimalSheet, readSpeciesSheet } from './read-study-sheet.ts'
import { joinStudy } from './study-join.ts'
import { labelsOf, type StatisticsWish, studyStatistics } from './study-statistics.ts'
import type { CountingReader } from './summary/collect.ts'
import { type SummaryWish, summariseSurvey } from './summary/summarise.ts'

export interface StudyStore extends CountingReader {
  sheets(survey: string): SheetKept[]
}

/** Sheets are read anew only when their answers change. */
const TABLES_KEPT = 50

/** One survey from readings to statistics: the same steps for the page, the commands, the report and the bundle. */
export class Study {
  readonly survey: SurveyFile
  readonly #store: StudyStore
  readonly #timelines: Timelines

  constructor(store: StudyStore, timelines: Timelines, survey: SurveyFile) {
    this.#store = store
    this.#timelines = timelines
    this.survey = survey
  }

  summary(wish: SummaryWish = {}): StudySummary {
    return summariseSurvey(this.#store, this.#timelines, this.survey, wish)
  }

  async sheets(): Promise<StudySheet[]> {
    const labels = this.survey.quadrats.map(({ label }) => label)
    return Promise.all(this.#store.sheets(this.survey.id).map((sheet) => readKept(sheet, labels)))
  }

  /** The newest species sheet that counts and can be read, with its answers; null when there is none. */
  async species(): Promise<{ table: SpeciesTable; sheet: StudySheet } | null> {
    const sheet = (await this.sheets()).find(
      ({ kind, isRemoved, table }) => kind === 'species' && !isRemoved && table !== null,
    )
    return sheet ? { table: sheet.table!, sheet } : null
  }

  /** @throws HubError when there is no species sheet to join with */
  async join(wish: SummaryWish = {}): Promise<StudyJoin> {
    const species = await this.species()
    if (!species)
      throw new HubError('E_NO_SPECIES', `Survey "${this.survey.id}" has no table of species yet.`)
    const { labels: _labels, ...joined } = joinStudy(this.summary(wish), species.table, species.sheet.answers)
    return { ...joined, questions: [...species.table.questions, ...joined.questions] }
  }

  async statistics(wish: SummaryWish & StatisticsWish = {}): Promise<StudyStatistics> {
    const summary = this.summary(wish)
    const species = await this.species()
    const labels = species && labelsOf(summary, species.table, species.sheet.answers)
    return studyStatistics(summary, species?.table ?? null, labels, wish)
  }

  async catches(): Promise<ExposedCatch[]> {
    const sheets = (await this.sheets()).filter(({ kind, isRemoved }) => kind === 'animals' && !isRemoved)
    const records = sheets[0]?.animals?.records ?? []
    return exposedCatches(this.#store, this.#timelines, this.survey, records)
  }
}

const tables = new Map<string, Promise<StudySheet>>()

function readKept(sheet: SheetKept, labels: readonly string[]): Promise<StudySheet> {
  const hash = createHash('sha256').update(sheet.bytes).digest('base64')
  const key = JSON.stringify([
    hash,
    sheet.id,
    sheet.kind,
    sheet.name,
    sheet.atMs,
    sheet.by,
    sheet.answers,
    sheet.isRemoved,
    labels,
  ])
  let read = tables.get(key)
  if (!read) {
    read = readNow(sheet, labels)
    if (tables.size >= TABLES_KEPT) tables.clear()
    tables.set(key, read)
  }
  return read
}

async function readNow(sheet: SheetKept, labels: readonly string[]): Promise<StudySheet> {
  const { id, kind, name, atMs, by, answers, isRemoved } = sheet
  const kept = { id, kind, name, at: rfc3339(atMs), by, answers, isRemoved }
  if (kind === 'species') {
    const table = await readSpeciesSheet(sheet, labels)
    return isRefusal(table)
      ? { ...kept, table: null, animals: null, trouble: table.message }
      : { ...kept, table, animals: null, trouble: null }
  }
  const animals = await readAnimalSheet(sheet)
  return isRefusal(animals)
    ? { ...kept, table: null, animals: null, trouble: animals.message }
    : { ...kept, table: null, animals, trouble: null }
}
