import { Field } from '../../parts/field.tsx'

/** Why something is said afterwards: a common reason to take, or one's own words. */
export function ReasonField(props: {
  reason: string
  common: readonly string[]
  wrong: string | undefined
  onReason: (reason: string) => void
}) {
  return (
    <div class="reason-field">
      <Field label="How is that known?" value={props.reason} wrong={props.wrong} onValue={props.onReason} />
      <div class="reason-picks">
        {props.common.map((reason) => (
          <button
            key={reason}
            type="button"
            class={`plain reason-pick${reason === props.reason ? ' chosen' : ''}`}
            aria-pressed={reason === props.reason}
            onClick={() => props.onReason(reason)}
          >
            {reason}
          </button>
        ))}
      </div>
    </div>
  )
}
