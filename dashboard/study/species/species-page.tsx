import { useState } from 'preact/hooks'
import type { SpeciesAnswers } from '../../../hub/contract/species.ts'
import type { StudySheet } from '../../../hub/contract/study.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { messageOf } from '../../client.ts'
import { pathTo } from '../../router.ts'
import { NextStep } from '../steps/next-step.tsx'
import { studyClient } from '../study-client.ts'
import { StudyHead } from '../study-head.tsx'
import { studyWish } from '../study-wish.ts'
import { useAsked } from '../use-asked.ts'
import { EarlierSheets } from './earlier-sheets.tsx'
import { GiveSheet } from './give-sheet.tsx'
import { SheetRead } from './sheet-read.tsx'
import { speciesInUse } from './species-in-use.ts'

/** The table of species: given, read, asked about, and kept with its answers. */
export function SpeciesPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const [isBusy, setBusy] = useState(false)
  const [failed, setFailed] = useState('')
  const asked = useAsked(id, () => studyClient.sheets(id))
  const sheets = (asked.answer ?? []).filter(({ kind }) => kind === 'species')
  const newest = sheets.find(({ isRemoved }) => !isRemoved)
  const inUse = speciesInUse(sheets)
  const wish = studyWish(id).value
  // questions about labels come with the join
  const join = useAsked(id, async () => (inUse ? studyClient.join(id, wish) : ('no-species' as const)), [
    asked.answer,
  ])
  const labelQuestions = join.answer === null || join.answer === 'no-species' ? [] : join.answer.questions
  const change = async (work: () => Promise<unknown>) => {
    setBusy(true)
    setFailed('')
    await work()
      .then(asked.askAgain)
      .catch((error: unknown) => setFailed(messageOf(error)))
    setBusy(false)
  }
  const answer = (sheet: StudySheet, answers: SpeciesAnswers) =>
    change(() => studyClient.answerSheet(id, sheet.id, answers))
  return (
    <article class="study-page">
      <StudyHead survey={id} title="The table of species" trouble={asked.trouble} onAgain={asked.askAgain} />
      {failed && (
        <p class="study-trouble" role="alert">
          {failed}
        </p>
      )}
      {asked.answer && sheets.length === 0 && (
        <p class="lead">
          No table yet. Give the file your class typed: quadrats one way and species the other, or a list. It
          may be untidy; what is doubtful is asked.
        </p>
      )}
      {newest?.trouble && (
        <div class="study-trouble" role="alert">
          <p>
            <b>{newest.name} cannot be read.</b> {newest.trouble}
          </p>
          {inUse && <p>Until then {inUse.name} stays in use.</p>}
        </div>
      )}
      {inUse?.table && (
        <SheetRead
          key={inUse.id}
          sheet={inUse}
          table={inUse.table}
          labelQuestions={labelQuestions}
          isBusy={isBusy}
          onAnswers={(answers) => void answer(inUse, answers)}
        />
      )}
      <GiveSheet survey={id} kind="species" isReplacing={inUse !== undefined} onGiven={asked.askAgain} />
      <p>
        Only paper? <a href={pathTo.chapter(id, 'study', 'type')}>Type the table in</a>, laid out as on the
        printed sheet.
      </p>
      <EarlierSheets
        sheets={sheets}
        inUse={inUse?.id ?? null}
        isBusy={isBusy}
        onRemove={(sheet, isRemoved) => void change(() => studyClient.removeSheet(id, sheet.id, isRemoved))}
      />
      {inUse && <NextStep survey={id} after="species" />}
    </article>
  )
}
