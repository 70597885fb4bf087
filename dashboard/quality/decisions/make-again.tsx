import { useState } from 'preact/hooks'
import type { Decision } from '../../../hub/contract/survey.ts'
import { client, messageOf } from '../../client.ts'
import { refreshAll } from '../../notebook.ts'

/** A decision that was taken back can be made again: as a new one, so that the record stays whole. */
export function MakeAgain({ survey, decision }: { survey: string; decision: Decision }) {
  const [isBusy, setBusy] = useState(false)
  const [said, setSaid] = useState('')
  const again = async () => {
    const { id: _id, at: _at, takenBack: _takenBack, ...same } = decision
    setBusy(true)
    try {
      const { id } = await client.decide(survey, same)
      setSaid(`Made again, as ${id}.`)
    } catch (error) {
      setSaid(messageOf(error))
    }
    refreshAll()
    setBusy(false)
  }
  return (
    <span class="take-back">
      <button type="button" class="plain" disabled={isBusy || said !== ''} onClick={() => void again()}>
        Make it again
      </button>
      <span role="status">{said}</span>
    </span>
  )
}
