import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { pathTo } from '../../router.ts'
import { Picture } from '../look/picture.tsx'
import { StudyHead } from '../study-head.tsx'
import { WishNote } from '../wish-note.tsx'
import { besideResult, pairChoices } from './expectation-choices.ts'
import { ExpectationForm } from './expectation-form.tsx'
import { aboutPair, keepExpectation } from './expectations.ts'
import { NoPairs } from './no-pairs.tsx'
import { PairResult } from './pair-result.tsx'
import { PointsTable } from './points-table.tsx'
import { useStatistics } from './use-statistics.ts'

/** One factor beside one species: what is expected, then the picture and the result. */
export function PairPage(props: { survey: SurveyFile; factor: string; species: string }) {
  const { survey, factor, species } = props
  const { id } = survey
  const { answer, trouble, askAgain, expectations, isUnsaid } = useStatistics(id)
  const about = aboutPair(factor, species)
  const pair = answer?.pairs.find((each) => each.factor === factor && each.species === species)
  const expectation = expectations[about]
  const expected = pairChoices(factor, species).find(({ what }) => what === expectation?.what)
  return (
    <article class="study-page">
      <StudyHead survey={id} title={`${factor} and ${species}`} trouble={trouble} onAgain={askAgain}>
        <p>
          <a href={pathTo.chapter(id, 'study', 'test')}>‹ All pairs</a>
        </p>
        <WishNote survey={id} />
      </StudyHead>
      {answer && answer.pairs.length === 0 && (
        <NoPairs
          survey={id}
          statistics={answer}
          needed="Without it there is nothing to compare the factor with."
        />
      )}
      {answer && answer.pairs.length > 0 && !pair && (
        <p>There is no such pair any more: the factor or the species has another name now.</p>
      )}
      {pair && isUnsaid(about) && (
        <ExpectationForm
          choices={pairChoices(factor, species)}
          onKeep={(written) => keepExpectation(id, about, written)}
        />
      )}
      {/* what came held back is asked for anew */}
      {pair && !isUnsaid(about) && pair.result === null && <p role="status">The hub is testing…</p>}
      {pair && !isUnsaid(about) && pair.result !== null && (
        <>
          {expectation && expected && (
            <p class="expected">
              You expected {expected.label}
              {expectation.why && <>, because {expectation.why}</>}.{' '}
              <b>{besideResult(expected.what, pair)}</b>
            </p>
          )}
          <Picture
            survey={id}
            name="scatter"
            factors={[factor]}
            species={[species]}
            alt={`Scatter plot of ${pair.n} quadrats, ${factor} across and ${species} up. The numbers are in the table below.`}
          />
          <PointsTable pair={pair} />
          <PairResult survey={id} pair={pair} />
          <section class="study-block">
            <h2>Bear in mind</h2>
            <ul class="study-notes">
              {pair.cautions.map((caution) => (
                <li key={caution}>{caution}</li>
              ))}
            </ul>
          </section>
        </>
      )}
    </article>
  )
}
