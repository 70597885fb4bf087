import { isSameStretch, stretchTimes, stretchWords } from './stretch-words.ts'
import type { Stretch } from './stretches.ts'

/** Every stretch as a button, for keyboard and narrow screens. */
export function StretchList(props: {
  stretches: readonly Stretch[]
  chosen: Stretch | null
  nowMs: number
  zone: string | undefined
  onChoose: (stretch: Stretch) => void
}) {
  const { stretches, chosen, nowMs, zone, onChoose } = props
  return (
    <ol class="stretch-list">
      {stretches.map((stretch) => (
        <li key={stretch.fromMs}>
          <button
            type="button"
            class={`plain stretch-button stretch-${stretch.kind}${isSameStretch(stretch, chosen) ? ' chosen' : ''}`}
            aria-pressed={isSameStretch(stretch, chosen)}
            data-stretch={stretchWords(stretch)}
            onClick={() => onChoose(stretch)}
          >
            <b>{stretchWords(stretch)}</b>
            <small>{stretchTimes(stretch, nowMs, zone)}</small>
          </button>
        </li>
      ))}
    </ol>
  )
}
