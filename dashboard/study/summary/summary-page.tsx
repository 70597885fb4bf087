import { useState } from 'preact/hooks'
import type { QuadratSummary } from '../../../hub/contract/study.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { pathTo } from '../../router.ts'
import { NoReadings } from '../no-readings.tsx'
import { NextStep } from '../steps/next-step.tsx'
import { studyClient } from '../study-client.ts'
import { StudyHead } from '../study-head.tsx'
import { studyWish } from '../study-wish.ts'
import { useAsked } from '../use-asked.ts'
import { AllNumbers } from './all-numbers.tsx'
import { CautionList } from './caution-list.tsx'
import { summaryColumns } from './summary-columns.ts'
import { SummaryTable } from './summary-table.tsx'
import { WishSwitches } from './wish-switches.tsx'

/** Each quadrat in numbers: from clean readings, with what to beware of. */
export function SummaryPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const wish = studyWish(id).value
  const [openKey, setOpenKey] = useState('')
  const { answer, trouble, isAsking, askAgain } = useAsked(id, () => studyClient.summary(id, wish), [wish])
  const opened = answer?.summaries.find((summary) => keyOf(summary) === openKey) ?? null
  const columns = summaryColumns(answer?.summaries ?? [])
  const column = columns.find(({ ofQuadrat }) => opened && ofQuadrat.get(opened.quadrat) === opened)
  return (
    <article class="study-page is-wide">
      <StudyHead survey={id} title="Each quadrat in numbers" trouble={trouble} onAgain={askAgain}>
        <p>
          From clean readings only. ± is the 95 % interval: spread between values and probe together. What was
          left out is in <a href={pathTo.survey(id)}>the downloads of the transect</a>, each with its reason.
        </p>
      </StudyHead>
      {isAsking && !answer && <p role="status">The hub is summing up…</p>}
      {answer && <CautionList survey={id} cautions={answer.cautions} />}
      <WishSwitches survey={id} />
      {answer?.window && (
        <p class="study-good">
          Only from {momentText(Date.parse(answer.window.from), siteZone.value)} to{' '}
          {momentText(Date.parse(answer.window.to), siteZone.value)}: all were logging then.
        </p>
      )}
      {answer && !isAsking && !trouble && wish.window === 'common' && answer.window === null && (
        <p>
          There is no time in which all were logging, or meters were carried: nothing was limited, and all
          readings count.
        </p>
      )}
      {answer && columns.length === 0 && <NoReadings survey={id} />}
      {answer && columns.length > 0 && (
        <>
          <SummaryTable
            quadrats={answer.quadrats}
            columns={columns}
            opened={opened}
            onOpen={(summary) => setOpenKey(keyOf(summary) === openKey ? '' : keyOf(summary))}
          />
          {opened && (
            <AllNumbers
              survey={id}
              label={column?.label ?? opened.quantity}
              summary={opened}
              onClose={() => setOpenKey('')}
            />
          )}
          <p class="form-ways not-print">
            <button type="button" class="take plain" disabled={isAsking} onClick={askAgain}>
              Sum up again with the newest readings
            </button>
          </p>
        </>
      )}
      <NextStep survey={id} after="summary" />
    </article>
  )
}

function keyOf({ quadrat, quantity, method, unit }: QuadratSummary): string {
  return JSON.stringify([quadrat, quantity, method, unit])
}
