import type { SpeciesAnswers, SpeciesQuestion, SpeciesTable } from '../../../hub/contract/species.ts'
import type { StudySheet } from '../../../hub/contract/study.ts'
import { countText } from '../../format.ts'
import { DoubtfulCells } from './doubtful-cells.tsx'
import { GivenAnswers } from './given-answers.tsx'
import { measureWords } from './measure-words.ts'
import { nearSpellings } from './near-spellings.ts'
import { PreviewTable } from './preview-table.tsx'
import { QuestionCards } from './question-cards.tsx'
import { ReadOtherwise } from './read-otherwise.tsx'
import { sheetPreview } from './sheet-preview.ts'
import { givenAnswers, openQuestions } from './sheet-questions.ts'

interface Props {
  sheet: StudySheet
  table: SpeciesTable
  labelQuestions: readonly SpeciesQuestion[]
  isBusy: boolean
  onAnswers: (answers: SpeciesAnswers) => void
}

/** How the sheet in use was read: in a sentence, its questions, its cells. */
export function SheetRead({ sheet, table, labelQuestions, isBusy, onAnswers }: Props) {
  const { answers } = sheet
  const open = openQuestions(table, labelQuestions, answers)
  const preview = sheetPreview(table)
  const isEmpty = table.taxa.length === 0
  const without = (id: string) => Object.fromEntries(Object.entries(answers).filter(([key]) => key !== id))
  return (
    <>
      <p class="sheet-sentence">
        <b>{sheet.name}.</b> {table.reading}{' '}
        {!isEmpty &&
          `${countText(table.taxa.length, 'species', 'species')} in ${countText(table.quadrats.length, 'quadrat')}, as ${measureWords[table.measure].label}.`}
      </p>
      <QuestionCards
        questions={open}
        isBusy={isBusy}
        onAnswer={(given) => onAnswers({ ...answers, ...given })}
      />
      {open.length === 0 && (
        <p class="study-good" role="status">
          Nothing is left to ask about this table.
        </p>
      )}
      {preview && (
        <section class="study-block">
          <h2>As it was read</h2>
          <PreviewTable preview={preview} />
        </section>
      )}
      <DoubtfulCells
        repairs={table.repairs}
        faults={table.faults}
        notes={table.notes.filter((note) => nearSpellings([note]).length === 0)}
      />
      <GivenAnswers
        given={givenAnswers(answers, table.questions)}
        isBusy={isBusy}
        onForget={(id) => onAnswers(without(id))}
      />
      {!isEmpty && (
        <ReadOtherwise
          answers={answers}
          onSay={(id, value) => onAnswers(value === null ? without(id) : { ...answers, [id]: value })}
        />
      )}
    </>
  )
}
