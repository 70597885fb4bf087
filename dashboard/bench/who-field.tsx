/** Who did it: a group label. */
export function WhoField(props: { id: string; who: string; onWho: (who: string) => void }) {
  const { id, who, onWho } = props
  return (
    <div class="bench-field">
      <label for={id}>Group label</label>
      <input
        id={id}
        name="by"
        maxLength={40}
        autoComplete="off"
        value={who}
        onInput={(event) => onWho(event.currentTarget.value)}
      />
      <small class="field-hint">such as G3, or initials; never a name</small>
    </div>
  )
}
