import type { CleanCount } from '../../../hub/contract/clean.ts'
import type { StudyJoin, StudySheet } from '../../../hub/contract/study.ts'
import { countText, numberText } from '../../format.ts'
import { openQuestions } from '../species/sheet-questions.ts'
import type { StudyStep } from './step-list.ts'

export interface StepState {
  /** `open`: somebody has to do something; `waiting`: an earlier step comes first */
  state: 'done' | 'open' | 'waiting'
  text: string
}

/** What is known of the study; null is not known yet, or not there. */
export interface StudyKnown {
  clean: CleanCount | null
  sheets: readonly StudySheet[] | null
  join: StudyJoin | null
}

/** The state of each step in a few words. */
export function stepStates({ clean, sheets, join }: StudyKnown): Record<StudyStep, StepState> {
  const sheet = sheets?.find(({ kind, isRemoved }) => kind === 'species' && !isRemoved) ?? null
  const hasReadings = (clean?.clean ?? 0) > 0
  const afterJoin = (text: string): StepState =>
    join && hasReadings
      ? { state: 'done', text }
      : { state: 'waiting', text: 'after readings and species are joined' }
  const afterReadings = (text: string): StepState =>
    hasReadings ? { state: 'done', text } : { state: 'waiting', text: 'after the first readings' }
  return {
    summary: readingsState(clean),
    species: speciesState(sheets, sheet, join),
    join: joinState(sheet, hasReadings ? join : null),
    look: afterReadings(
      join ? 'profile, scatter, boxes by zone' : 'profile and boxes by zone; with species more',
    ),
    test: afterJoin('each factor beside each species'),
    report: afterReadings('a page to print, with the methods from the record'),
    download: afterReadings('tables, workbook, archive, bundle'),
  }
}

function readingsState(clean: CleanCount | null): StepState {
  if (clean === null) return { state: 'waiting', text: 'not known yet' }
  if (clean.all === 0) return { state: 'open', text: 'no readings yet' }
  const text = `${numberText(clean.clean, 0)} readings clean of ${numberText(clean.all, 0)}`
  return { state: clean.clean > 0 ? 'done' : 'open', text }
}

function speciesState(
  sheets: StudyKnown['sheets'],
  sheet: StudySheet | null,
  join: StudyJoin | null,
): StepState {
  if (sheets === null) return { state: 'waiting', text: 'not known yet' }
  if (!sheet) return { state: 'open', text: 'no table yet: give a file, paste it, or type it in' }
  if (!sheet.table) return { state: 'open', text: `${sheet.name} cannot be read` }
  const questions = openQuestions(sheet.table, join?.questions ?? [], sheet.answers)
  if (questions.length > 0)
    return { state: 'open', text: `${sheet.name} is read; ${countText(questions.length, 'question')} open` }
  const size = `${countText(sheet.table.taxa.length, 'species', 'species')} in ${countText(sheet.table.quadrats.length, 'quadrat')}`
  return { state: 'done', text: `${sheet.name}: ${size}` }
}

function joinState(sheet: StudySheet | null, join: StudyJoin | null): StepState {
  if (!sheet || !join) return { state: 'waiting', text: 'after the first readings and the table of species' }
  const alone = join.unmatched.rows.length
  const joined = `${countText(join.wide.rows.length, 'quadrat')} joined`
  return alone === 0
    ? { state: 'done', text: `${joined}, nothing left over` }
    : { state: 'open', text: `${joined}, ${countText(alone, 'entry', 'entries')} left over` }
}
