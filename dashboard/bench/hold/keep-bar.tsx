/** The one main button under the thumb; the second way is smaller and says what it does. */
export function KeepBar(props: {
  words: string
  isSteady: boolean
  canForce: boolean
  isAutomatic: boolean
  onAutomatic: (isAutomatic: boolean) => void
  onKeep: () => void
  said: string
  /** signal and how it moves, for when the ring is out of sight */
  live: string
}) {
  const { isSteady, canForce, isAutomatic } = props
  return (
    <>
      <div class="keep-ways">
        <label class="bench-tick">
          <input
            type="checkbox"
            name="automatic"
            checked={isAutomatic}
            onChange={(event) => props.onAutomatic(event.currentTarget.checked)}
          />
          <span>Keep it by itself as soon as it is steady</span>
        </label>
        {!isSteady && (
          <button type="button" id="keep-anyway" class="plain" disabled={!canForce} onClick={props.onKeep}>
            Keep it although it still moves
          </button>
        )}
      </div>
      <div class="keep-bar">
        <p class="keep-live" aria-hidden="true">
          {props.live}
        </p>
        <p class="said" role="status" aria-live="polite">
          {props.said}
        </p>
        <button type="button" id="keep-point" class="keep-point" disabled={!isSteady} onClick={props.onKeep}>
          {isSteady ? props.words : 'Not steady yet: hold still'}
        </button>
      </div>
    </>
  )
}
