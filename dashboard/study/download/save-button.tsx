import { useState } from 'preact/hooks'
import { messageOf } from '../../client.ts'
import { saveFile } from '../save-file.ts'
import { studyClient } from '../study-client.ts'

interface Props {
  address: string
  /** what the file is called on this device */
  fileName: string
  label: string
  isPlain?: boolean
}

/** Fetches a file from the hub and hands it over; says so while it is made, and why when it cannot be. */
export function SaveButton({ address, fileName, label, isPlain = false }: Props) {
  const [isBusy, setBusy] = useState(false)
  const [trouble, setTrouble] = useState('')
  const save = async () => {
    setBusy(true)
    setTrouble('')
    try {
      saveFile(fileName, await studyClient.file(address))
    } catch (error) {
      setTrouble(messageOf(error))
    }
    setBusy(false)
  }
  return (
    <span class="save-button">
      <button
        type="button"
        class={isPlain ? 'plain' : ''}
        disabled={isBusy}
        data-save={fileName}
        onClick={() => void save()}
      >
        {isBusy ? 'The hub is making it…' : label}
      </button>
      {trouble && (
        <span class="study-trouble" role="alert">
          It could not be fetched. {trouble}
        </span>
      )}
    </span>
  )
}
