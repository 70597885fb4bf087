import { useEffect, useState } from 'preact/hooks'
import type { ReadingExplained } from '../../hub/contract/reading.ts'
import type { SeriesPoint } from '../charts/series-points.ts'
import { client } from '../client.ts'
import { countText, expandedText, valueText } from '../format.ts'
import { clockText } from '../format-time.ts'
import type { LiveSeries } from '../quadrat-points.ts'
import { flagMeaning } from '../standing.ts'
import { HowDoWeKnow } from './how-do-we-know.tsx'

/** The point looked at, in words: value, time, flag and why, and the way back to where it came from. */
export function PointReadout(props: {
  live: LiveSeries
  point: SeriesPoint | null
  isChosen: boolean
  zone: string | undefined
  onLetGo: () => void
}) {
  const { live, point, isChosen, zone } = props
  const [why, setWhy] = useState<{ id: number; explained: ReadingExplained } | null>(null)
  const [isOpen, setOpen] = useState(false)
  const id = point?.id ?? null
  const isFlagged = point?.flag === 3 || point?.flag === 4
  useEffect(() => {
    if (id === null || !isFlagged || !isChosen) return
    client
      .reading(id)
      .then((explained) => setWhy({ id, explained }))
      .catch(() => undefined)
  }, [id, isFlagged, isChosen])
  if (!point) return <div class="readout" />
  const { quantity, unit } = live.series
  return (
    <div class="readout" aria-live={isChosen ? 'polite' : 'off'}>
      <p>
        <b class="figures">
          {point.value === null ? 'no value' : valueText(quantity, unit, point.value, point.uncertainty)}
        </b>
        {point.uncertainty !== null && ` ${expandedText(quantity, unit, point.uncertainty)}`}
        {point.count > 1 && point.low !== null && point.high !== null && (
          <>
            {' '}
            mean of {countText(point.count, 'reading')}, {valueText(quantity, unit, point.low, null)} to{' '}
            {valueText(quantity, unit, point.high, null)}
          </>
        )}
        <span class="figures"> {clockText(point.timeMs, zone)}</span>
        {typeof point.corrected === 'number' && (
          <span class="corrected">
            {' '}
            corrected for drift{' '}
            <span class="figures">{valueText(quantity, unit, point.corrected, point.uncertainty)}</span>
          </span>
        )}
      </p>
      <p class={isFlagged ? `flag-line tag-${point.flag === 4 ? 'fail' : 'suspect'}` : 'flag-line'}>
        {flagMeaning[point.flag] ?? `flag ${point.flag}`}
        {why !== null && why.id === id && why.explained.why.length > 0 && (
          <span> — {why.explained.why.map(({ text }) => text).join('; ')}</span>
        )}
      </p>
      {isChosen && (
        <p class="readout-ways">
          {id !== null ? (
            <button type="button" class="plain" onClick={() => setOpen(true)}>
              How do we know?
            </button>
          ) : (
            <span>Choose a shorter span to see the single readings.</span>
          )}
          <button type="button" class="plain" onClick={props.onLetGo}>
            Let go
          </button>
        </p>
      )}
      {isOpen && id !== null && (
        <HowDoWeKnow
          reading={id}
          corrected={point.corrected ?? null}
          zone={zone}
          onClose={() => setOpen(false)}
        />
      )}
    </div>
  )
}
