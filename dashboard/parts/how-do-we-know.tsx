import type { ComponentChildren } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { ReadingExplained } from '../../hub/contract/reading.ts'
import { client, messageOf } from '../client.ts'
import { expandedText, signalText, valueText } from '../format.ts'
import { momentText } from '../format-time.ts'
import { ByPeople } from '../quality/by-people.tsx'
import { WhyFlagged } from '../quality/why-flagged.tsx'
import { quantityWords } from '../quantities.ts'
import { secondsText } from '../seconds-text.ts'
import { flagMeaning } from '../standing.ts'
import { oneMethodText } from './method-text.ts'
import { RecipeTable } from './recipe-table.tsx'

/** The chain from a value back to the bytes it came as, one link under the other. */
export function HowDoWeKnow(props: {
  reading: number
  /** its value corrected for drift, where that was asked for */
  corrected: number | null
  zone: string | undefined
  onClose: () => void
}) {
  const { reading, corrected, zone, onClose } = props
  const dialog = useRef<HTMLDialogElement>(null)
  const [told, setTold] = useState<ReadingExplained | string | null>(null)
  useEffect(() => {
    dialog.current?.showModal()
    client
      .reading(reading)
      .then(setTold)
      .catch((error: unknown) => setTold(messageOf(error)))
  }, [reading])
  return (
    <dialog class="chain" ref={dialog} onClose={onClose} aria-label="How do we know?">
      <form method="dialog">
        <button class="plain" type="submit">
          Close
        </button>
      </form>
      <h2>How do we know?</h2>
      {told === null && <p>Looking it up…</p>}
      {typeof told === 'string' && <p role="alert">{told}</p>}
      {told !== null && typeof told === 'object' && <Chain {...{ told, corrected, zone }} />}
    </dialog>
  )
}

function Chain(props: { told: ReadingExplained; corrected: number | null; zone: string | undefined }) {
  const { told, corrected, zone } = props
  const quantity = told.quantity ?? ''
  const { message } = told
  return (
    <ol>
      <Link name="Value">
        <p class="figures">
          <b>
            {told.value === null ? 'no value' : valueText(quantity, told.unit, told.value, told.uncertainty)}
          </b>
          {told.uncertainty !== null &&
            ` ${expandedText(quantity, told.unit, told.uncertainty)} (95 in 100, k = 2)`}
        </p>
        <p>
          {told.quantity ? quantityWords(told.quantity).label : 'A quantity nobody has named'}
          {told.method ? `, ${oneMethodText(told.method)}` : ''}
          {told.quadrat ? `, at ${told.quadrat}` : ', at no quadrat'},{' '}
          {momentText(Date.parse(told.time), zone)}.
        </p>
        <p>
          Flag {told.flag}: {flagMeaning[told.flag]}.
        </p>
        <WhyFlagged told={told} />
        <ByPeople {...{ told, corrected, zone }} />
      </Link>
      <Link name="Calibration">
        {told.calibration ? (
          <>
            <p>{told.calibration}</p>
            <RecipeTable recipe={told.calibrationRecipe} facts={told.calibrationFacts} />
          </>
        ) : (
          <p>None in force at that time, so this reading cannot be clean.</p>
        )}
      </Link>
      <Link name="Signal">
        <p>
          <b class="figures">{signalText(told.signal, told.signalUnit)}</b>
          {told.probe ? ` from probe ${told.probe}` : ''}
        </p>
      </Link>
      <Link name="Board">
        <p>
          Channel “{told.channel}” of board “{told.board}”. Time from: {told.timeOrigin}.
        </p>
        <p>
          {told.timeErrorSeconds === null
            ? 'How wrong that time may be cannot be said'
            : `That time is right to about ${secondsText(told.timeErrorSeconds)}`}
          : {told.timeErrorWhy}.
        </p>
      </Link>
      <Link name="Message">
        <p>
          No. {message.id} in this notebook, by {message.source}, arrived{' '}
          {momentText(Date.parse(message.arrived), zone)}
          {message.number !== null && `; the board’s message ${message.number}`}
          {message.startup !== null && ` of its start-up ${message.startup}`}.
        </p>
      </Link>
      <Link name="Bytes">
        <code class="bytes">{message.bytes}</code>
      </Link>
    </ol>
  )
}

function Link({ name, children }: { name: string; children: ComponentChildren }) {
  return (
    <li>
      <h3>{name}</h3>
      {children}
    </li>
  )
}
