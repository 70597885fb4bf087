import { Refusal } from '../client.ts'
import { momentText } from '../format-time.ts'
import './asked-first.css'

const INSTANT = /\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|[+-]\d\d:\d\d)/g

/** The hub's question before it stores something odd; null when it refused for another reason. */
export function questionOf(error: unknown, zone: string | undefined): string | null {
  if (!(error instanceof Refusal) || error.code !== 'E_ASK') return null
  return error.message.replace(INSTANT, (instant) => momentText(Date.parse(instant), zone))
}

/** Two probes of one kind at one quadrat, one probe in two surveys: asked about, never silently accepted. */
export function AskedFirst(props: {
  question: string
  isBusy: boolean
  onSure: () => void
  onNo: () => void
}) {
  return (
    <div class="asked" role="alert">
      <p>
        <b>Is it meant so?</b> {props.question}
      </p>
      <p class="form-ways">
        <button type="button" data-sure disabled={props.isBusy} onClick={props.onSure}>
          It is meant so
        </button>
        <button type="button" class="plain" onClick={props.onNo}>
          No, leave it as it is
        </button>
      </p>
    </div>
  )
}
