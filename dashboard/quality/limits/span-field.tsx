import { useId } from 'preact/hooks'
import type { LimitFault } from './fault-places.ts'
import { joined } from './read-written.ts'
import type { WrittenSpan } from './written.ts'

/** From a lower to an upper number, both belonging to it. */
export function SpanField(props: {
  label: string
  unit: string
  typed: WrittenSpan
  wrong: string | undefined
  path: string
  faults: readonly LimitFault[]
  onTyped: (typed: WrittenSpan) => void
}) {
  const { label, unit, typed, path, faults, onTyped } = props
  const id = useId()
  const wrong =
    props.wrong ?? faults.find((fault) => [0, 1].some((end) => fault.path === joined(path, end)))?.message
  return (
    <fieldset class={wrong === undefined ? 'field span-field' : 'field span-field is-wrong'}>
      <legend>{label}</legend>
      <span class="field-line">
        <label class="unseen" for={`${id}-low`}>
          {label}, from
        </label>
        <input
          id={`${id}-low`}
          inputMode="decimal"
          autoComplete="off"
          value={typed.low}
          aria-invalid={wrong !== undefined}
          onInput={(event) => onTyped({ ...typed, low: event.currentTarget.value })}
        />
        to
        <label class="unseen" for={`${id}-high`}>
          {label}, to
        </label>
        <input
          id={`${id}-high`}
          inputMode="decimal"
          autoComplete="off"
          value={typed.high}
          aria-invalid={wrong !== undefined}
          onInput={(event) => onTyped({ ...typed, high: event.currentTarget.value })}
        />
        {unit}
      </span>
      {wrong !== undefined && <small class="field-wrong">{wrong}</small>}
    </fieldset>
  )
}
