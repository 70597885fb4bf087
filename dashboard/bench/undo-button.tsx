import { useState } from 'preact/hooks'
import { client, messageOf } from '../client.ts'
import { refreshAll } from '../notebook.ts'

/** Takes the last change to the survey back, and says which that was. */
export function UndoButton(props: { survey: string; label: string; onUndone?: () => void }) {
  const [said, setSaid] = useState('')
  const [isBusy, setBusy] = useState(false)
  const undo = async () => {
    setBusy(true)
    try {
      const { undone } = await client.undo(props.survey)
      setSaid(`Taken back: ${undone}.`)
      props.onUndone?.()
    } catch (error) {
      setSaid(messageOf(error))
    }
    refreshAll()
    setBusy(false)
  }
  return (
    <span class="undo">
      <button
        type="button"
        class="plain"
        data-undo
        disabled={isBusy || said !== ''}
        onClick={() => void undo()}
      >
        {props.label}
      </button>
      <span role="status">{said}</span>
    </span>
  )
}
