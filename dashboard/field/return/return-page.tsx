import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { fieldClient } from '../field-client.ts'
import { FieldHead } from '../field-head.tsx'
import { useAnswer } from '../use-answer.ts'
import { summaryOfCells } from './cell-words.ts'
import { GapList } from './gap-list.tsx'
import { LossTable } from './loss-table.tsx'
import { Matrix } from './matrix.tsx'
import './return.css'

/** On return: quadrat × quantity, what is complete and what is not, with the gaps to the minute; printable. */
export function ReturnPage({ survey }: { survey: SurveyFile }) {
  const { answer, trouble } = useAnswer(survey.id, () => fieldClient.completeness(survey.id))
  return (
    <article class="field-page return-page">
      <FieldHead survey={survey.id} title="On return" trouble={trouble}>
        <p class="only-print">
          {survey.title}, {answer ? momentText(answer.nowMs, siteZone.value) : ''}
        </p>
      </FieldHead>
      {answer === null ? (
        <p class="opening">Counting…</p>
      ) : answer.cells.length === 0 ? (
        <p>
          {answer.quadrats.length === 0
            ? 'No quadrat is planned yet.'
            : 'Nothing is wanted at the quadrats yet, and no probe has stood at one.'}
        </p>
      ) : (
        <>
          <p class="return-summary" role="status">
            {summaryOfCells(answer.cells)}
          </p>
          {!answer.isWantedGiven && (
            <p class="field-hint-line">
              The survey does not say what is wanted at each quadrat: this was read off its probes and spot
              readings.
            </p>
          )}
          <Matrix completeness={answer} />
          <button type="button" class="plain not-print" onClick={() => print()}>
            Print this page
          </button>
          <GapList cells={answer.cells} />
          <LossTable loss={answer.loss} />
        </>
      )}
    </article>
  )
}
