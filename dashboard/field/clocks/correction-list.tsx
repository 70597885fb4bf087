import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { messageOf } from '../../client.ts'
import { momentText } from '../../format-time.ts'
import { refreshAll } from '../../notebook.ts'
import { secondsText } from '../../seconds-text.ts'
import { clocksClient } from './clocks-client.ts'
import { offsetText } from './offset-entry.ts'

/** Corrections in force, each with its reason; taken away, the readings go back to the times they came with. */
export function CorrectionList(props: {
  survey: SurveyFile
  zone: string | undefined
  onSaid: (said: string) => void
}) {
  const { survey, zone, onSaid } = props
  const [isBusy, setBusy] = useState(false)
  const corrections = survey.clockCorrections ?? []
  const remove = async (id: string, board: string) => {
    setBusy(true)
    try {
      await clocksClient.remove(survey.id, id)
      onSaid(`Correction ${id} is taken away; readings of ${board} go back to the times they came with.`)
    } catch (error) {
      onSaid(messageOf(error))
    }
    refreshAll()
    setBusy(false)
  }
  if (corrections.length === 0) return <p>None: every reading has the time it came with.</p>
  return (
    <ul class="field-list">
      {corrections.toReversed().map(({ id, board, from, to, offsetSeconds, errorSeconds, reason, by }) => (
        <li key={id} data-correction={id}>
          <span class="field-text">
            <b>
              {board} <span class="figures">{offsetText(offsetSeconds)}</span>
            </b>
            {errorSeconds === undefined ? ', error not stated' : `, known to ${secondsText(errorSeconds)}`}
            <small>
              from {momentText(Date.parse(from), zone)} to {momentText(Date.parse(to), zone)} by its wrong
              times; {reason}
              {by === undefined ? '' : ` (${by})`}
            </small>
          </span>
          <button type="button" class="plain" disabled={isBusy} onClick={() => void remove(id, board)}>
            Take away<span class="unseen"> correction {id}</span>
          </button>
        </li>
      ))}
    </ul>
  )
}
