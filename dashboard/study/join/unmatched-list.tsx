import type { StudyTable } from '../../../hub/contract/study.ts'
import { pathTo } from '../../router.ts'

/** What has no partner, by name, with the reason and what to do. */
export function UnmatchedList({ survey, unmatched }: { survey: string; unmatched: StudyTable }) {
  if (unmatched.rows.length === 0)
    return <p class="study-good">Every quadrat of the readings has species, and the other way round.</p>
  return (
    <ul class="study-lines">
      {unmatched.rows.map((row, place) => {
        const [side, label, cell, reason, suggestion] = row.map((text) => String(text ?? ''))
        return (
          <li key={place} data-unmatched={label}>
            <span>
              <b>{label || '(blank)'}</b>{' '}
              <small>
                {side === 'readings' ? 'of the readings' : `of the table${cell ? `, cell ${cell}` : ''}`}
              </small>
              <br />
              {reason}
              {suggestion && ` Is it ${suggestion}?`}
            </span>
            {side === 'species' && (
              <a class="lesser" href={pathTo.chapter(survey, 'study', 'species')}>
                Put it right
              </a>
            )}
          </li>
        )
      })}
    </ul>
  )
}
