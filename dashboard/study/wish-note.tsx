import { pathTo } from '../router.ts'
import { studyWish } from './study-wish.ts'

/** On pages that rest on the summaries: which readings they are made of, and where that is chosen. */
export function WishNote({ survey }: { survey: string }) {
  const isCommon = studyWish(survey).value.window === 'common'
  return (
    <p class="field-hint">
      {isCommon ? 'From clean readings of the time all were logging.' : 'From all clean readings.'}{' '}
      <a href={pathTo.chapter(survey, 'study', 'summary')}>Change</a>
    </p>
  )
}
