import type { QualityTestListed } from '../../../hub/contract/quality.ts'
import { pathTo } from '../../router.ts'
import { type ReasonWords, reasonWords } from './reason-words.ts'

/** What one reason means, and where more of it is. */
export function ReasonPanel(props: { survey: string; reason: string; tests: readonly QualityTestListed[] }) {
  const { survey, reason, tests } = props
  const { title, explain, more } = reasonWords(reason, tests)
  return (
    <div class="reason-panel" data-reason-panel={reason}>
      <h3>{title}</h3>
      {explain !== '' && <p>{explain}</p>}
      {more && (
        <a class="lesser" href={pathOf(more, survey, reason)}>
          {LINKS[more]}
        </a>
      )}
    </div>
  )
}

const LINKS: Record<NonNullable<ReasonWords['more']>, string> = {
  test: 'Its limits, and where they come from',
  decisions: 'All decisions by hand',
  bench: 'Go to the bench',
  boards: 'Go to the boards',
}

function pathOf(more: NonNullable<ReasonWords['more']>, survey: string, reason: string): string {
  if (more === 'test') return pathTo.quality(survey, reason)
  if (more === 'decisions') return pathTo.decisions(survey)
  return more === 'bench' ? pathTo.bench : pathTo.boards
}
