import { useState } from 'preact/hooks'
import type { StudySheet } from '../../../hub/contract/study.ts'
import { messageOf } from '../../client.ts'
import { studyClient } from '../study-client.ts'
import { PasteBox } from './paste-box.tsx'
import { pastedAsCsv } from './pasted-table.ts'

interface Props {
  survey: string
  kind: StudySheet['kind']
  isReplacing: boolean
  onGiven: () => void
}

/** Drop a file, choose one, or paste a table. The hub keeps it as it is, and says how it reads it. */
export function GiveSheet({ survey, kind, isReplacing, onGiven }: Props) {
  const [trouble, setTrouble] = useState('')
  const [isBusy, setBusy] = useState(false)
  const [isOver, setOver] = useState(false)
  const give = async (name: string, bytes: Blob) => {
    setBusy(true)
    setTrouble('')
    try {
      await studyClient.addSheet(survey, { kind, name, bytes })
      onGiven()
    } catch (error) {
      setTrouble(messageOf(error))
    }
    setBusy(false)
  }
  const drop = (event: DragEvent) => {
    event.preventDefault()
    setOver(false)
    const file = event.dataTransfer?.files[0]
    if (file) void give(file.name, file)
  }
  const choose = (input: HTMLInputElement) => {
    const file = input.files?.[0]
    if (file) void give(file.name, file)
    input.value = ''
  }
  return (
    <section
      class={`give-sheet${isOver ? ' is-over' : ''}`}
      aria-label="Give a sheet"
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <label class="file">
        <span>{isReplacing ? 'Give a newer file' : 'Drop a file here, or choose one'}</span>
        <input
          id={`give-${kind}`}
          type="file"
          accept=".csv,.txt,.tsv,.xlsx,.ods"
          disabled={isBusy}
          onChange={(event) => choose(event.currentTarget)}
        />
      </label>
      <p class="field-hint">
        CSV, Excel (.xlsx) or LibreOffice (.ods), as your class typed it. The file is kept unchanged; a newer
        one goes before it, and the older can be put back.
      </p>
      <PasteBox
        isBusy={isBusy}
        onPaste={(text) =>
          give('pasted table.csv', new Blob([pastedAsCsv(text)], { type: 'text/csv;charset=utf-8' }))
        }
      />
      {isBusy && <p role="status">The hub is reading it…</p>}
      {trouble && (
        <p class="study-trouble" role="alert">
          {trouble}
        </p>
      )}
    </section>
  )
}
