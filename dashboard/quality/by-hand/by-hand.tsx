import { useState } from 'preact/hooks'
import type { QuadratSeries } from '../../../hub/contract/reading.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { countText } from '../../format.ts'
import { actionWords, spanWords } from '../decisions/decision-words.ts'
import { TakeBack } from '../decisions/take-back.tsx'
import { DecideForm } from './decide-form.tsx'
import { isSpan, type Marked } from './span.ts'
import { SpanFields } from './span-fields.tsx'
import { useSpanCount } from './use-span-count.ts'

/** Under a chart: mark a span, see what lies in it, and decide; what was decided can be taken back on the spot. */
export function ByHand(props: {
  survey: SurveyFile
  quadrat: string
  series: Pick<QuadratSeries, 'probe' | 'quantity'>
  marked: Marked
  isMarking: boolean
  zone: string | undefined
  onMarked: (marked: Marked) => void
  onMarking: (isMarking: boolean) => void
}) {
  const { survey, quadrat, series, marked, zone, onMarked, onMarking } = props
  const { probe } = series
  const [madeId, setMadeId] = useState<string | null>(null)
  const span = isSpan(marked) ? marked : null
  const { count, trouble } = useSpanCount(survey.id, quadrat, series, span)
  const close = () => {
    onMarked(null)
    onMarking(false)
  }
  const made = survey.decisions?.find(({ id }) => id === madeId)
  if (!props.isMarking && marked === null) {
    return (
      <div class="by-hand-shut">
        {made && !made.takenBack && (
          <p class="by-hand-made" role="status">
            <span>
              <b>
                {probe}: {actionWords[made.action]}
              </b>
              , {spanWords(Date.parse(made.from), Date.parse(made.to), zone)}: {made.reason}.
            </span>
            <TakeBack survey={survey.id} decision={made.id} />
          </p>
        )}
        {made?.takenBack && (
          <p class="by-hand-made" role="status">
            Taken back: the readings count as before.
          </p>
        )}
        <button
          type="button"
          class="plain by-hand-open"
          data-by-hand={probe}
          onClick={() => {
            setMadeId(null)
            onMarking(true)
          }}
        >
          Decide on a span by hand
        </button>
      </div>
    )
  }
  return (
    <section class="entry-form by-hand" aria-label={`Decide on readings of ${probe} by hand`}>
      <h3>
        {probe} at {quadrat}, by hand
      </h3>
      <p class="by-hand-how">
        {marked !== null && 'edgeMs' in marked
          ? 'One end is marked. Tap the chart at the other end.'
          : span === null
            ? 'Draw a span with the mouse, tap the chart at both its ends, or type the times.'
            : ''}
      </p>
      <SpanFields marked={marked} zone={zone} onMarked={onMarked} />
      {trouble !== '' && <p role="alert">{trouble}</p>}
      {span && !trouble && (
        <p class="by-hand-count" role="status" data-span-count={count?.all ?? ''}>
          {count === null
            ? 'Counting…'
            : count.all === 0
              ? 'No reading lies in this span.'
              : `${countText(count.all, 'reading')}: ${count.suspect} suspect, ${count.fail} failed.`}
        </p>
      )}
      {span && count !== null && count.all > 0 && (
        <DecideForm
          {...{ survey, quadrat, series, span, count }}
          onDecided={(id) => {
            setMadeId(id)
            close()
          }}
          onLeave={close}
        />
      )}
      {!(span && count !== null && count.all > 0) && (
        <p class="form-ways">
          <button type="button" class="plain" onClick={close}>
            Not now
          </button>
        </p>
      )}
    </section>
  )
}
