import type { StudyPair } from '../../../hub/contract/study.ts'
import { studyClient } from '../study-client.ts'
import { TroubleNote } from '../study-head.tsx'
import { studyWish } from '../study-wish.ts'
import { useAsked } from '../use-asked.ts'
import { robustnessWords } from './robustness-words.ts'

const REDRAWS = 500

/** How often the result would come again if every value were drawn anew within its uncertainty. */
export function Robustness({ survey, pair }: { survey: string; pair: StudyPair }) {
  const { factor, species, p } = pair
  const wish = studyWish(survey).value
  const { answer, trouble, askAgain } = useAsked(
    survey,
    () => studyClient.statistics(survey, wish, { redraws: REDRAWS, factors: [factor], taxa: [species] }),
    [factor, species, wish.window],
  )
  const share = answer?.pairs[0]?.significantShare ?? null
  return (
    <section class="robustness" data-robustness>
      <h3>Would it hold if you measured again?</h3>
      {trouble && <TroubleNote trouble={trouble} onAgain={askAgain} />}
      {!answer && !trouble && <p role="status">Drawing every value anew, {REDRAWS} times…</p>}
      {answer && (
        <p>
          <b>{robustnessWords(share, p !== null && p <= 0.05)}</b> Each value was drawn anew {REDRAWS} times
          within its own uncertainty.
        </p>
      )}
    </section>
  )
}
