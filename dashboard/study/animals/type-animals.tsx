import { useState } from 'preact/hooks'
import type { AnimalRecord } from '../../../hub/contract/species.ts'
import { recall, remember } from '../../bench/remembered.ts'
import { messageOf } from '../../client.ts'
import { countText } from '../../format.ts'
import { studyClient } from '../study-client.ts'
import { type AnimalRow, animalsAsCsv, rowsOfRecords } from './animal-draft.ts'
import { AnimalForm } from './animal-form.tsx'

interface Props {
  survey: string
  places: readonly string[]
  /** of the sheet in use; a new sheet takes its place, so one goes on from it */
  records: readonly AnimalRecord[]
  onGiven: () => void
}

/** Animals typed in one by one, kept on this device until they are given to the hub as one sheet. */
export function TypeAnimals({ survey, places, records, onGiven }: Props) {
  const key = `study animals ${survey}`
  const [rows, setRows] = useState(() => recall<AnimalRow[]>(key, []))
  const [trouble, setTrouble] = useState('')
  const change = (next: AnimalRow[]) => {
    setRows(next)
    remember(key, next)
  }
  const send = async () => {
    try {
      const bytes = new Blob([animalsAsCsv(rows)], { type: 'text/csv;charset=utf-8' })
      await studyClient.addSheet(survey, { kind: 'animals', name: 'typed animals.csv', bytes })
      change([])
      setTrouble('')
      onGiven()
    } catch (error) {
      setTrouble(`${messageOf(error)} What you typed is still here.`)
    }
  }
  return (
    <details class="study-fold" open={rows.length > 0}>
      <summary>Type them in</summary>
      {rows.length === 0 && records.length > 0 && (
        <p>
          The newest sheet counts alone.{' '}
          <button type="button" class="take plain" onClick={() => change(rowsOfRecords(records))}>
            Go on from the {countText(records.length, 'record')} kept
          </button>
        </p>
      )}
      <AnimalForm places={places} onAdd={(row) => change([...rows, row])} />
      {rows.length > 0 && (
        <>
          <ul class="study-lines">
            {rows.map((row, place) => (
              <li key={place}>
                <span>
                  <b>
                    {row.count} {row.taxon}
                  </b>{' '}
                  at {row.trap}
                  {row.method && `, ${row.method}`}
                </span>
                <button
                  type="button"
                  class="take plain"
                  aria-label={`Take ${row.taxon} at ${row.trap} off the list`}
                  onClick={() => change(rows.filter((_, each) => each !== place))}
                >
                  Take off
                </button>
              </li>
            ))}
          </ul>
          <p class="form-ways">
            <button type="button" onClick={() => void send()}>
              Give {countText(rows.length, 'record')} to the hub
            </button>
          </p>
        </>
      )}
      {trouble && (
        <p class="study-trouble" role="alert">
          {trouble}
        </p>
      )}
    </details>
  )
}
