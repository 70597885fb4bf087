import { SpeciesAnswers } from '../contract/species.ts'
import type { SqliteDatabase, SqliteStatement } from './open-database.ts'

export interface SheetKept {
  id: number
  survey: string
  kind: 'species' | 'animals'
  name: string
  atMs: number
  by: string | null
  bytes: Uint8Array
  answers: SpeciesAnswers
  isRemoved: boolean
}

/** Sheets as they were given. Nothing is deleted: a removed one can be put back. */
export class SheetTable {
  readonly #sql: ReturnType<typeof prepare>

  constructor(database: SqliteDatabase) {
    this.#sql = prepare(database)
  }

  /** newest first */
  of(survey: string): SheetKept[] {
    return (this.#sql.of.all(survey) as SheetRow[]).map(({ answers, is_removed, ...sheet }) => ({
      ...sheet,
      answers: SpeciesAnswers.parse(JSON.parse(answers)),
      isRemoved: is_removed === 1,
    }))
  }

  add(sheet: Omit<SheetKept, 'id' | 'isRemoved'>): number {
    const { survey, kind, name, atMs, by, bytes, answers } = sheet
    return Number(
      this.#sql.add.run(survey, kind, name, atMs, by, bytes, JSON.stringify(answers)).lastInsertRowid,
    )
  }

  /** @returns false when the survey has no such sheet */
  answer(survey: string, id: number, answers: SpeciesAnswers): boolean {
    return this.#sql.answer.run(JSON.stringify(answers), id, survey).changes === 1
  }

  setRemoved(survey: string, id: number, isRemoved: boolean): boolean {
    return this.#sql.setRemoved.run(isRemoved ? 1 : 0, id, survey).changes === 1
  }
}

interface SheetRow extends Omit<SheetKept, 'answers' | 'isRemoved'> {
  answers: string
  is_removed: number
}

function prepare(database: SqliteDatabase) {
  const sql = (text: string): SqliteStatement => database.prepare(text)
  return {
    of: sql(
      `SELECT id, survey, kind, name, at_ms AS atMs, by_whom AS "by", bytes, answers, is_removed
       FROM study_sheet WHERE survey = ? ORDER BY id DESC`,
    ),
    add: sql(
      'INSERT INTO study_sheet (survey, kind, name, at_ms, by_whom, bytes, answers) VALUES (?, ?, ?, ?, ?, ?, ?)',
    ),
    answer: sql('UPDATE study_sheet SET answers = ? WHERE id = ? AND survey = ?'),
    setRemoved: sql('UPDATE study_sheet SET is_removed = ? WHERE id = ? AND survey = ?'),
  }
}
