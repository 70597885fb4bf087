import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { siteZone } from '../current-survey.ts'
import { countText, valueText } from '../format.ts'
import { minuteText } from '../format-time.ts'
import { quantityWords } from '../quantities.ts'
import type { Capture } from './capture.ts'
import { isKeptOnPhone, openPhone, unsent } from './on-this-phone.ts'
import { RefusedCapture } from './refused-capture.tsx'

/** What is on this phone and not at the hub yet, and what the hub refused. Nothing is shown when all is sent. */
export function UnsentStrip({ survey }: { survey: SurveyFile | null }) {
  const waiting = unsent.value.filter(({ state }) => state === 'waiting')
  const refused = unsent.value.filter(({ state }) => state === 'refused')
  const isLasting = isKeptOnPhone.value !== false
  return (
    <div class="carry-strips" data-unsent={waiting.length} data-refused={refused.length}>
      {!isLasting && (
        <p class="carry-strip is-trouble">
          This browser keeps nothing (a private window, or its storage is full). Each value is sent at once;
          do not close or reload the page while something is not yet sent.
        </p>
      )}
      {waiting.length > 0 && <Waiting waiting={waiting} isLasting={isLasting} />}
      {refused.map((capture) => (
        <RefusedCapture key={capture.id} capture={capture} survey={survey} />
      ))}
    </div>
  )
}

function Waiting({ waiting, isLasting }: { waiting: readonly Capture[]; isLasting: boolean }) {
  const [isTrying, setTrying] = useState(false)
  const again = async () => {
    setTrying(true)
    await (await openPhone()).flush()
    setTrying(false)
  }
  return (
    <section class="carry-strip" aria-label="Not yet sent">
      <details>
        <summary>
          <span role="status">
            <b>{waiting.length} not yet sent</b>
            {isLasting && ', safe on this phone'}
          </span>
        </summary>
        <ul class="carry-waiting">
          {waiting.map((capture) => (
            <li key={capture.id}>{captureText(capture)}</li>
          ))}
        </ul>
        <p>Sent by itself, once, as soon as the hub answers.</p>
      </details>
      <button type="button" class="plain" disabled={isTrying} onClick={() => void again()}>
        Send now
      </button>
    </section>
  )
}

/** “Q5, soil pH at 10:42: 5.92, 5.90, 5.95” */
export function captureText({ spot, quantity, unit, values, takenMs }: Capture): string {
  const { label } = quantityWords(quantity)
  const read = values.filter((value) => value !== null).map((value) => valueText(quantity, unit, value, null))
  const what = read.length > 0 ? read.join(', ') : countText(values.length, 'replicate')
  const typed = spot.typed ? ', typed in' : ''
  return `${spot.quadrat}, ${label} at ${minuteText(takenMs, siteZone.value)}: ${what}${typed}`
}
