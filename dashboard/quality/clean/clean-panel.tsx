import { useEffect, useState } from 'preact/hooks'
import type { CleanCount } from '../../../hub/contract/clean.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { countText } from '../../format.ts'
import { pathTo } from '../../router.ts'
import { qualityTests, readQualityTests } from '../test-list.ts'
import { CleanStrip } from './clean-strip.tsx'
import { ReasonPanel } from './reason-panel.tsx'
import { sentenceParts } from './sentence-parts.ts'
import { useCleanCount } from './use-clean-count.ts'

/** How many readings are clean and why the others are left out: each reason opens and says what it means. */
export function CleanPanel({ survey }: { survey: SurveyFile }) {
  const { count, trouble } = useCleanCount(survey)
  const [open, setOpen] = useState<string | null>(null)
  useEffect(() => {
    // without them the reasons keep their names
    readQualityTests().catch(() => undefined)
  }, [])
  const decisions = (survey.decisions ?? []).filter((each) => !each.takenBack).length
  return (
    <section class="clean-panel" aria-label="Clean readings">
      {count === null && trouble === '' && <p class="clean-sentence">Counting clean readings…</p>}
      {trouble !== '' && <p role="alert">{trouble}</p>}
      {count && (
        <>
          <CleanStrip count={count} />
          <Sentence count={count} open={open} onOpen={setOpen} />
          {open !== null && count.leftOut.some(({ reason }) => reason === open) && (
            <ReasonPanel survey={survey.id} reason={open} tests={qualityTests.value ?? []} />
          )}
        </>
      )}
      <p class="clean-ways">
        <a class="lesser" href={pathTo.quality(survey.id)}>
          The quality tests and their limits
        </a>
        <a class="lesser" href={pathTo.decisions(survey.id)}>
          Decisions by hand{decisions > 0 ? ` (${countText(decisions, 'in force', 'in force')})` : ''}
        </a>
      </p>
    </section>
  )
}

function Sentence(props: {
  count: CleanCount
  open: string | null
  onOpen: (reason: string | null) => void
}) {
  const { count, open, onOpen } = props
  return (
    <p class="clean-sentence" data-clean-sentence data-clean={count.clean} data-all={count.all}>
      {sentenceParts(count).map(({ text, reason }) =>
        reason === null ? (
          text
        ) : (
          <button
            key={reason.reason}
            type="button"
            class="plain reason"
            data-reason={reason.reason}
            data-count={reason.n}
            aria-expanded={open === reason.reason}
            onClick={() => onOpen(open === reason.reason ? null : reason.reason)}
          >
            {text}
          </button>
        ),
      )}
    </p>
  )
}
