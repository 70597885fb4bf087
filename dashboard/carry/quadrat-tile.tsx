import type { Quadrat, SurveyFile } from '../../hub/contract/survey.ts'
import { placeText } from '../format.ts'
import { quantityWords } from '../quantities.ts'
import { pathTo } from '../router.ts'
import { groupsOfQuadrat } from './group-label.ts'
import type { Progress } from './progress.ts'
import { ProgressMark } from './progress-mark.tsx'

/** One quadrat to go to: its label, where it lies, and how far each quantity is, by shape and in words. */
export function QuadratTile(props: {
  survey: SurveyFile
  quadrat: Quadrat
  group: string | null
  progress: readonly Progress[]
  isNext: boolean
  /** false: the hub has not said yet what is there */
  isKnown: boolean
}) {
  const { survey, quadrat, group, progress, isNext, isKnown } = props
  const owners = groupsOfQuadrat(survey, quadrat.label).filter((label) => label !== group)
  const isDone = progress.length > 0 && progress.every(({ state }) => state === 'done')
  return (
    <a
      class={`carry-tile${isNext ? ' is-next' : ''}${isDone ? ' is-done' : ''}`}
      href={pathTo.carry(survey.id, quadrat.label)}
      {...(isNext ? { id: 'next-quadrat' } : { 'data-tile': quadrat.label })}
      data-state={isDone ? 'done' : progress.some(({ got }) => got > 0) ? 'some' : 'none'}
    >
      <span class="tile-label">
        {isNext && <span class="tile-go">Next: </span>}
        {quadrat.label}
      </span>
      <span class="tile-place">
        {placeText(quadrat)}
        {owners.length > 0 && ` · of ${owners.join(', ')}`}
        {quadrat.lifted && ' · frame taken up'}
      </span>
      <span class="tile-states">
        {progress.map((each) => (
          <span key={each.quantity} class={`tile-state is-${each.state}`}>
            <ProgressMark state={each.state} />
            {quantityWords(each.quantity).short} {isKnown || each.got > 0 ? stateText(each) : '…'}
          </span>
        ))}
      </span>
    </a>
  )
}

function stateText({ state, got, needed, notCounted, unsent }: Progress): string {
  const count = state === 'none' ? 'none' : `${got} of ${needed}`
  const aside = [
    ...(unsent > 0 ? [`${unsent} not yet sent`] : []),
    ...(notCounted > 0 ? [`${notCounted} not counted`] : []),
  ]
  return aside.length === 0 ? count : `${count} (${aside.join(', ')})`
}
