import type { Leave } from '../../../hub/contract/field.ts'
import { FieldMark } from '../field-marks.tsx'

/** The answer in one line, to be read in the sun at arm's length. */
export function Decision({ leave }: { leave: Leave }) {
  const { maySafelyGo, sentence } = leave
  return (
    <p
      class={`decision ${maySafelyGo ? 'decision-go' : 'decision-stay'}`}
      data-may-go={maySafelyGo ? 'yes' : 'no'}
      role="status"
      aria-live="polite"
    >
      <FieldMark state={maySafelyGo ? 'ok' : leave.things > 0 ? 'fail' : 'look'} size={44} />
      <span>{sentence}</span>
    </p>
  )
}
