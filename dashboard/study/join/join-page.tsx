import { useState } from 'preact/hooks'
import type { StudyJoin } from '../../../hub/contract/study.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { countText } from '../../format.ts'
import { pathTo } from '../../router.ts'
import { NoReadings } from '../no-readings.tsx'
import { NoSpecies } from '../no-species.tsx'
import { NextStep } from '../steps/next-step.tsx'
import { studyClient } from '../study-client.ts'
import { StudyHead } from '../study-head.tsx'
import { studyWish } from '../study-wish.ts'
import { useAsked } from '../use-asked.ts'
import { WishNote } from '../wish-note.tsx'
import { JoinedTable } from './joined-table.tsx'
import { UnmatchedList } from './unmatched-list.tsx'

type Shape = 'wide' | 'long'

/** Readings beside species: the joined table as it is downloaded, and what did not match. */
export function JoinPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const [shape, setShape] = useState<Shape>('wide')
  const wish = studyWish(id).value
  const asked = useAsked(id, () => studyClient.join(id, wish), [wish])
  const { trouble, isAsking, askAgain } = asked
  const answer = asked.answer === 'no-species' ? null : asked.answer
  const open = answer?.questions.filter((question) => question.answer === null).length ?? 0
  return (
    <article class="study-page is-wide">
      <StudyHead survey={id} title="Readings beside species" trouble={trouble} onAgain={askAgain}>
        <p>One row for each quadrat: its factors, then its species. Nothing is dropped in silence.</p>
        <WishNote survey={id} />
      </StudyHead>
      {isAsking && asked.answer === null && !trouble && <p role="status">The hub is joining…</p>}
      {asked.answer === 'no-species' && (
        <NoSpecies survey={id} needed="The join needs it beside the readings." />
      )}
      {answer && (
        <>
          {open > 0 && (
            <p class="study-open" role="status">
              {countText(open, 'question')} about the table {open === 1 ? 'is' : 'are'} open: the join may
              still change. <a href={pathTo.chapter(id, 'study', 'species')}>Answer now</a>
            </p>
          )}
          {!hasFactors(answer) && <NoReadings survey={id} />}
          <section class="study-block">
            <h2>How it came about</h2>
            <ul class="study-notes">
              {answer.explanation.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </section>
          <section class="study-block">
            <h2>
              {answer.unmatched.rows.length === 0
                ? 'Nothing left over'
                : `${countText(answer.unmatched.rows.length, 'entry', 'entries')} left over`}
            </h2>
            <UnmatchedList survey={id} unmatched={answer.unmatched} />
          </section>
          <section class="study-block">
            <h2>The joined table</h2>
            <fieldset class="either study-either">
              <legend class="unseen">Shape of the table</legend>
              {(['wide', 'long'] as const).map((each) => (
                <label key={each}>
                  <input type="radio" name="shape" checked={shape === each} onChange={() => setShape(each)} />
                  {each === 'wide'
                    ? 'wide: a row for each quadrat'
                    : 'long: a row for each quadrat and species'}
                </label>
              ))}
            </fieldset>
            <JoinedTable table={answer[shape]} name={`The joined table, ${shape}`} />
            <p class="field-hint">
              _u is the standard uncertainty, _n how many values; · is not recorded. Numbers are rounded here,
              and whole in the download.
            </p>
          </section>
        </>
      )}
      <NextStep survey={id} after="join" />
    </article>
  )
}

/** Each factor has a column that counts its values. */
function hasFactors({ wide }: StudyJoin): boolean {
  return wide.headings.some((heading) => heading.endsWith('_n'))
}
