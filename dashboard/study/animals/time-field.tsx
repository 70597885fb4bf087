import { useId } from 'preact/hooks'

/** A local time of the site, to the minute. */
export function TimeField(props: { label: string; value: string; onValue: (value: string) => void }) {
  const id = useId()
  return (
    <div class="field broad">
      <label for={id}>{props.label}</label>
      <input
        id={id}
        type="datetime-local"
        value={props.value.slice(0, 16)}
        onInput={(event) => props.onValue(event.currentTarget.value)}
      />
    </div>
  )
}
