import { useEffect, useId, useState } from 'preact/hooks'
import { isSpan, type Marked } from './span.ts'
import { momentOfSeconds, wallSeconds } from './wall-seconds.ts'

/** The two ends of a span as times to type, to the second. */
export function SpanFields(props: {
  marked: Marked
  zone: string | undefined
  onMarked: (marked: Marked) => void
}) {
  const { marked, zone, onMarked } = props
  const id = useId()
  const written = textsOf(marked, zone)
  const [typed, setTyped] = useState(written)
  useEffect(() => setTyped(written), [written.from, written.to])
  const [fromMs, toMs] = [momentOfSeconds(typed.from, zone), momentOfSeconds(typed.to, zone)]
  const isReversed = fromMs !== null && toMs !== null && toMs <= fromMs
  const type = (next: typeof typed) => {
    setTyped(next)
    const [from, to] = [momentOfSeconds(next.from, zone), momentOfSeconds(next.to, zone)]
    if (from !== null && to !== null && from < to) onMarked({ fromMs: from, toMs: to })
  }
  return (
    <div class="span-fields">
      <End id={`${id}-from`} label="from" value={typed.from} onValue={(from) => type({ ...typed, from })} />
      <End
        id={`${id}-to`}
        label="to, not included"
        value={typed.to}
        onValue={(to) => type({ ...typed, to })}
      />
      {isReversed && (
        <p class="field-wrong" role="alert">
          The end lies after the beginning.
        </p>
      )}
    </div>
  )
}

function textsOf(marked: Marked, zone: string | undefined): { from: string; to: string } {
  if (marked === null) return { from: '', to: '' }
  if (!isSpan(marked)) return { from: wallSeconds(marked.edgeMs, zone), to: '' }
  return { from: wallSeconds(marked.fromMs, zone), to: wallSeconds(marked.toMs, zone) }
}

function End(props: { id: string; label: string; value: string; onValue: (value: string) => void }) {
  return (
    <div class="field">
      <label for={props.id}>{props.label}</label>
      <input
        id={props.id}
        type="datetime-local"
        step="1"
        value={props.value}
        onInput={(event) => props.onValue(event.currentTarget.value)}
      />
    </div>
  )
}
