import { useState } from 'preact/hooks'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { BoardNow } from '../../hub/contract/status.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { client, type Fault, messageOf, Refusal } from '../client.ts'
import {
  type ColumnForm,
  cellsOf,
  freshColumnForm,
  lastLines,
  readColumnForm,
  withColumns,
} from '../column-form.ts'
import { refreshAll } from '../notebook.ts'
import { ColumnLines } from './column-lines.tsx'
import { ColumnRows } from './column-rows.tsx'
import { Faults } from './faults.tsx'
import { Choice } from './field.tsx'
import './board-columns.css'

const SEPARATORS = [
  { value: 'comma', label: 'comma' },
  { value: 'semicolon', label: 'semicolon' },
  { value: 'tab', label: 'tab' },
  { value: 'space', label: 'spaces' },
]

/** Which column of a sketch’s plain lines is what; shown where a board prints such lines. */
export function BoardColumns(props: {
  board: BoardNow
  channels: readonly ChannelNow[]
  survey: SurveyFile | null
  onSaid: (said: string) => void
}) {
  const { board, channels, survey, onSaid } = props
  const setting = survey?.boards.find(({ name }) => name === board.name)
  const [lines, setLines] = useState<string[]>([])
  const [form, setForm] = useState<ColumnForm | null>(null)
  const [wrong, setWrong] = useState<ReadonlyMap<number, string>>(new Map())
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const isUnmapped = board.source !== null && channels.every(({ channel }) => /^c\d+$/.test(channel))
  const printsColumns = setting?.columns !== undefined || isUnmapped
  if (!survey || !printsColumns) return null
  const open = async () => {
    const newest = newestReading(channels)
    try {
      const [read, kept] = await Promise.all([
        newest === null ? null : client.reading(newest),
        client.quarantine(),
      ])
      const found = lastLines(board, read?.message.bytes ?? null, kept.quarantined)
      setLines(found)
      setForm(freshColumnForm(setting?.columns, found[0]))
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: [] })
    }
  }
  const save = async (columns: ColumnForm | null) => {
    const read = columns === null ? null : readColumnForm(columns)
    setWrong(read && 'wrong' in read ? read.wrong : new Map())
    if (read && 'wrong' in read) return
    setTrouble(null)
    try {
      const { columns: _before, ...rest } = setting ?? { name: board.name }
      const next = read ? { ...rest, columns: read.map } : rest
      await client.saveSurvey(survey.id, {
        ...survey,
        boards: [...survey.boards.filter(({ name }) => name !== board.name), next],
      })
      setForm(null)
      onSaid(
        read
          ? `Lines of ${board.name} are read by that map from now on.`
          : `Columns of ${board.name} are c1, c2 … again from now on.`,
      )
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
    refreshAll()
  }
  if (form === null)
    return (
      <p class="form-ways">
        <button type="button" class="plain" data-columns={board.name} onClick={() => void open()}>
          {setting?.columns ? 'Change its column map' : 'Say which column is what'}
        </button>
        {trouble && <span role="alert">{trouble.said}</span>}
      </p>
    )
  const read = readColumnForm(form)
  const split = (part: Partial<ColumnForm>) => {
    const next = { ...form, ...part }
    const line = lines[0]
    const count = line === undefined ? next.columns.length : cellsOf(line, next.separator).length
    setForm({ ...next, columns: withColumns(next.columns, count) })
  }
  return (
    <form
      class="entry-form column-map"
      onSubmit={(event) => {
        event.preventDefault()
        void save(form)
      }}
    >
      <h4>Columns of {board.name}</h4>
      <div class="fields">
        <Choice
          label="Between columns"
          value={form.separator}
          choices={SEPARATORS}
          onValue={(separator) => split({ separator: separator as ColumnForm['separator'] })}
        />
        <Choice
          label="Decimals after a"
          value={form.decimal}
          choices={[
            { value: 'point', label: 'point: 23.1' },
            { value: 'comma', label: 'comma: 23,1' },
          ]}
          onValue={(decimal) => split({ decimal: decimal as ColumnForm['decimal'] })}
        />
      </div>
      <ColumnRows form={form} line={lines[0]} wrong={wrong} onForm={setForm} />
      <ColumnLines lines={lines} map={'map' in read ? read.map : null} />
      {trouble && <Faults {...trouble} />}
      <p class="form-ways">
        <button type="submit">Read its lines so</button>
        {setting?.columns && (
          <button type="button" class="plain" onClick={() => void save(null)}>
            Remove the map
          </button>
        )}
        <button type="button" class="plain" onClick={() => setForm(null)}>
          Leave it
        </button>
      </p>
    </form>
  )
}

function newestReading(channels: readonly ChannelNow[]): number | null {
  const ids = channels.flatMap(({ latest }) => (latest ? [latest[0]] : []))
  return ids.length === 0 ? null : Math.max(...ids)
}
