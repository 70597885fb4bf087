import { useState } from 'preact/hooks'
import { whoBefore } from '../../bench/fit/who.ts'
import { client, messageOf } from '../../client.ts'
import { refreshAll } from '../../notebook.ts'

/** Takes a decision back: the readings are judged as before, and the decision stays on record. */
export function TakeBack(props: { survey: string; decision: string; onTakenBack?: () => void }) {
  const [isBusy, setBusy] = useState(false)
  const [trouble, setTrouble] = useState('')
  const takeBack = async () => {
    setBusy(true)
    setTrouble('')
    try {
      await client.takeBack(props.survey, props.decision, whoBefore())
      props.onTakenBack?.()
    } catch (error) {
      setTrouble(messageOf(error))
    }
    refreshAll()
    setBusy(false)
  }
  return (
    <span class="take-back">
      <button
        type="button"
        class="plain"
        data-take-back={props.decision}
        disabled={isBusy}
        onClick={() => void takeBack()}
      >
        Take it back
      </button>
      {trouble !== '' && <span role="alert">{trouble}</span>}
    </span>
  )
}
