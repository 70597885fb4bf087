import { useEffect, useState } from 'preact/hooks'
import type { Quarantined } from '../../hub/contract/status.ts'
import { client, messageOf } from '../client.ts'
import { siteZone } from '../current-survey.ts'
import { countText } from '../format.ts'
import { momentText } from '../format-time.ts'
import { hub } from '../notebook.ts'

/** What arrived and could not be read, newest first, with its bytes: nothing is lost in silence. */
export function QuarantinePage() {
  const [rows, setRows] = useState<Quarantined[] | null>(null)
  const [trouble, setTrouble] = useState('')
  const [isAll, setAll] = useState(false)
  const total = hub.value?.tallies.quarantined ?? 0
  const repeats = hub.value?.tallies.repeats ?? 0
  const load = async (before?: number) => {
    try {
      const { quarantined } = await client.quarantine(before)
      setRows((kept) => (before === undefined ? quarantined : [...(kept ?? []), ...quarantined]))
      if (quarantined.length < 50) setAll(true)
      setTrouble('')
    } catch (error) {
      setTrouble(messageOf(error))
    }
  }
  useEffect(() => {
    void load()
  }, [total])
  return (
    <article class="ledger">
      <h1>Quarantine</h1>
      <p>
        {total === 0
          ? 'Every line that arrived so far could be read.'
          : `${countText(total, 'line')} could not be read. They are kept here as they came; none became a reading.`}
        {repeats > 0 &&
          ` ${countText(repeats, 'message')} came more than once and ${repeats === 1 ? 'is' : 'are'} kept once.`}
      </p>
      {trouble && <p role="alert">{trouble}</p>}
      {rows?.map((row) => (
        <section class="unread" key={row.id}>
          <header>
            <time>{momentText(Date.parse(row.arrived), siteZone.value)}</time>
            <span>{row.source}</span>
            {row.board && <span>board {row.board}</span>}
            <span class="code">{row.code}</span>
          </header>
          <p>
            {row.message} <b>{row.remedy}</b>
          </p>
          <code class="bytes">{row.shown}</code>
          {row.length > 200 && <small>the first 200 of {row.length} bytes</small>}
        </section>
      ))}
      {rows !== null && rows.length > 0 && !isAll && (
        <p class="form-ways">
          <button type="button" class="plain" onClick={() => void load(rows.at(-1)?.id)}>
            Show older ones
          </button>
        </p>
      )}
    </article>
  )
}
