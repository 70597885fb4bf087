import type { SilentBoard } from '../../hub/contract/field.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { siteZone } from '../current-survey.ts'
import { ageText, minuteText } from '../format-time.ts'
import { hubMs } from '../hub-clock.ts'
import { LateMark } from '../parts/marks.tsx'
import { pathTo } from '../router.ts'

/** Boards that have said nothing for three of their intervals, and since when. */
export function SilentList({ survey, silent }: { survey: SurveyFile; silent: readonly SilentBoard[] }) {
  const boards = new Set([
    ...survey.boards.map(({ name }) => name),
    ...survey.probes.filter(({ isTyped }) => !isTyped).map(({ board }) => board),
  ])
  return (
    <section class="field-block" data-silent={silent.length}>
      <h2>Who has fallen silent</h2>
      {silent.length === 0 ? (
        <p>
          {boards.size === 0
            ? 'No board belongs to this survey yet.'
            : boards.size === 1
              ? 'Nobody: the one board is heard.'
              : `Nobody: all ${boards.size} boards are heard.`}
        </p>
      ) : (
        <ul class="field-list">
          {silent.map(({ board, lastHeardMs, quadrats }) => (
            <li key={board}>
              <span class="tag-late">
                <LateMark />
              </span>
              <span class="field-text">
                <b>{board}</b>
                {quadrats.length > 0 ? ` at ${quadrats.join(', ')}` : ', at no quadrat now'}
                <small>
                  {lastHeardMs === null
                    ? 'never heard'
                    : `silent since ${minuteText(lastHeardMs, siteZone.value)}, heard ${ageText(lastHeardMs, hubMs.value)}`}
                </small>
              </span>
            </li>
          ))}
        </ul>
      )}
      {silent.length > 0 && (
        <p class="field-hint-line">
          Look at its lamp, its battery, its cable or Wi-Fi; press reset. Its readings come later if it keeps
          a backlog. <a href={pathTo.boards}>All boards</a>
        </p>
      )}
    </section>
  )
}
