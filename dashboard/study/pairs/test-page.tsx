import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { countText } from '../../format.ts'
import { NextStep } from '../steps/next-step.tsx'
import { StudyHead } from '../study-head.tsx'
import { studyWish, wishFor } from '../study-wish.ts'
import { WishNote } from '../wish-note.tsx'
import { DiversityTable } from './diversity-table.tsx'
import { FrequencyTable } from './frequency-table.tsx'
import { NoPairs } from './no-pairs.tsx'
import { roughText } from './number-words.ts'
import { OrdinationSection } from './ordination-section.tsx'
import { PairList } from './pair-list.tsx'
import { useStatistics } from './use-statistics.ts'
import { ZonesSection } from './zones-section.tsx'

/** Do the plants follow the factors? What the class expects comes first, then every test that was made. */
export function TestPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const { answer, trouble, askAgain, isUnsaid, isHidden } = useStatistics(id)
  const { predictFirst } = studyWish(id).value
  return (
    <article class="study-page">
      <StudyHead survey={id} title="Do the plants follow the factors?" trouble={trouble} onAgain={askAgain}>
        <p>One pair planned beforehand is worth more than twenty fished for afterwards.</p>
        <WishNote survey={id} />
        <label class="one-switch">
          <input
            id="predict-first"
            type="checkbox"
            checked={predictFirst}
            onChange={(event) => wishFor(id, { predictFirst: event.currentTarget.checked })}
          />
          <span>
            Predict first <small>a result is shown once you have written what you expect</small>
          </span>
        </label>
      </StudyHead>
      {!answer && !trouble && <p role="status">The hub is testing…</p>}
      {answer && (
        <>
          <section class="study-block">
            <h2>Each factor beside each species</h2>
            {answer.pairs.length === 0 ? (
              <NoPairs
                survey={id}
                statistics={answer}
                needed="Pairs of a factor and a species come with it."
              />
            ) : (
              <>
                <p class="study-alarm">
                  {answer.tests === 0
                    ? 'No pair has enough quadrats for a test: five are needed, eight are worth it.'
                    : `${countText(answer.tests, 'test')}: about ${roughText(answer.expectedFalseAlarms)} would look significant by chance alone. Holm’s correction, the last column, allows for that.`}
                </p>
                <PairList survey={id} pairs={answer.pairs} isHidden={isHidden} />
              </>
            )}
          </section>
          <section class="study-block">
            <h2>Between the zones</h2>
            <ZonesSection survey={id} zones={answer.zones} isUnsaid={isUnsaid} />
          </section>
          {answer.frequency.length > 0 && (
            <section class="study-block">
              <h2>How often, how much</h2>
              <FrequencyTable frequency={answer.frequency} />
            </section>
          )}
          {answer.diversity.length > 0 && (
            <section class="study-block">
              <h2>Diversity</h2>
              <DiversityTable diversity={answer.diversity} />
            </section>
          )}
          <section class="study-block">
            <h2>All factors together (for the advanced)</h2>
            <OrdinationSection survey={id} statistics={answer} />
          </section>
        </>
      )}
      <NextStep survey={id} after="test" />
    </article>
  )
}
