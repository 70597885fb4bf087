import { spanText } from '../format-time.ts'
import { choicesOf, choose } from './choices.ts'
import type { HoldState } from './hold-state.ts'

/** Under the thumb: the one button that keeps, and the few things that are set once. */
export function HoldBar(props: {
  survey: string
  round: number
  replicates: number
  state: HoldState
  forceInSeconds: number
  said: string
  onKeep: () => void
  onStartAgain: () => void
}) {
  const { survey, round, replicates, state } = props
  const { isAutomatic, isMuted } = choicesOf(survey)
  const words = {
    keep: `Keep replicate ${round} of ${replicates}`,
    marked: 'Keep it although it still moves',
    wait: 'Hold still …',
  }[state.may]
  return (
    <>
      <div class="carry-ways">
        <label class="carry-tick">
          <input
            type="checkbox"
            name="automatic"
            checked={isAutomatic}
            onChange={(event) => choose(survey, { isAutomatic: event.currentTarget.checked })}
          />
          <span>Keep by itself when steady</span>
        </label>
        <label class="carry-tick">
          <input
            type="checkbox"
            name="sound"
            checked={!isMuted}
            onChange={(event) => choose(survey, { isMuted: !event.currentTarget.checked })}
          />
          <span>Sound</span>
        </label>
        <button type="button" class="plain" onClick={props.onStartAgain}>
          I moved it: start again
        </button>
      </div>
      <div class="carry-bar">
        <p class="said" role="status" aria-live="polite">
          {state.may === 'marked'
            ? 'It has not become steady. It can be kept, marked as not steady: it will not count as clean.'
            : state.waitsForMove
              ? 'Steady. Put it in again 10 cm further; the next one is kept by itself.'
              : props.said}
        </p>
        {state.may === 'wait' && props.forceInSeconds > 0 && props.forceInSeconds < 60 && (
          <p class="carry-clock">
            If it does not settle, it can be kept as not steady in {spanText(props.forceInSeconds * 1000)}.
          </p>
        )}
        <button
          type="button"
          id="keep-replicate"
          class={`carry-main${state.may === 'marked' ? ' is-unsteady' : ''}`}
          disabled={state.may === 'wait'}
          onClick={props.onKeep}
        >
          {words}
        </button>
      </div>
    </>
  )
}
