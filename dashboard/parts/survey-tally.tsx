import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { countText } from '../format.ts'
import { boards } from '../notebook.ts'
import { pathTo } from '../router.ts'
import { isLate, type Standing, standingOf, standingWords } from '../standing.ts'
import { markCount } from '../tape-geometry.ts'
import { LateMark, StandingMark } from './marks.tsx'

/** One sentence on the whole survey, and the key to the marks used in it. */
export function SurveyTally(props: { survey: SurveyFile; channels: readonly ChannelNow[]; nowMs: number }) {
  const { survey, channels, nowMs } = props
  const placed = channels.filter((channel) => channel.survey === survey.id && channel.quadrat !== null)
  const intervals = new Map(survey.boards.map((board) => [board.name, board.sampleIntervalSeconds]))
  const late = placed.filter((channel) => isLate(channel, nowMs, intervals.get(channel.board))).length
  const count = (standing: Standing) => placed.filter((channel) => standingOf(channel) === standing).length
  const troubled = (boards.value ?? []).filter(
    (board) => board.trouble !== null && survey.boards.some(({ name }) => name === board.name),
  )
  const bare = survey.quadrats.filter(
    (quadrat) => !placed.some((channel) => channel.quadrat === quadrat.label),
  ).length
  const metres = survey.transects.reduce((sum, transect) => sum + transect.lengthMetres, 0)
  const marks = survey.transects.reduce(
    (sum, transect) => sum + markCount(transect.lengthMetres, transect.markSpacingMetres),
    0,
  )
  const worries = (['suspect', 'fail', 'uncalibrated', 'missing'] as const).filter(
    (standing) => count(standing) > 0,
  )
  return (
    <div class="tally">
      <p>
        {countText(survey.quadrats.length, 'quadrat')} {groundText(survey, metres, marks)}.{' '}
        {placed.length === 0
          ? 'No probe stands at a quadrat yet.'
          : `${countText(placed.length, 'probe')} in place, ${count('clean') + count('unchecked')} with a clean newest value.`}
        {bare > 0 && placed.length > 0 ? ` ${countText(bare, 'quadrat')} without a probe.` : ''}
      </p>
      {(worries.length > 0 || late > 0 || troubled.length > 0) && (
        <ul class="worries" aria-label="Newest values that need a look">
          {worries.map((standing) => (
            <li key={standing} class={`tag tag-${standing}`}>
              <StandingMark standing={standing} />
              {count(standing)} {standingWords[standing]}
            </li>
          ))}
          {late > 0 && (
            <li class="tag tag-late">
              <LateMark />
              {late} late
            </li>
          )}
          {troubled.length > 0 && (
            <li class="tag">
              <a href={pathTo.boards}>{countText(troubled.length, 'board')} in trouble</a>
            </li>
          )}
        </ul>
      )}
    </div>
  )
}

/** “on 20 m of tape with 41 marks and in 1 plot” */
function groundText(survey: SurveyFile, metres: number, marks: number): string {
  const plots = survey.plots?.length ?? 0
  return [
    ...(survey.transects.length > 0 ? [`on ${metres} m of tape with ${countText(marks, 'mark')}`] : []),
    ...(plots > 0 ? [`in ${countText(plots, 'plot')}`] : []),
  ].join(' and ')
}
