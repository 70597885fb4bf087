import { siteZone } from '../../current-survey.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { momentOf, wallTime } from '../wall-time.ts'

export type ValidFrom = { since: 'now' } | { since: 'earlier'; wall: string }

/** The moment meant; null when what was typed is no moment, or lies ahead. */
export function validFromMs(from: ValidFrom, nowMs: number, zone: string | undefined): number | null {
  if (from.since === 'now') return nowMs
  const ms = momentOf(from.wall, zone)
  return ms === null || ms > nowMs + 60_000 ? null : ms
}

/** From now on, or from an earlier moment: the bench was at nine, the laptop is opened at eleven. */
export function ValidFromChoice({ from, onFrom }: { from: ValidFrom; onFrom: (from: ValidFrom) => void }) {
  const zone = siteZone.value
  const isWrong = from.since === 'earlier' && validFromMs(from, hubNowMs(), zone) === null
  return (
    <fieldset class="bench-few valid-from">
      <legend>Valid from</legend>
      <label class="bench-tile">
        <input
          type="radio"
          name="since"
          value="now"
          checked={from.since === 'now'}
          onChange={() => onFrom({ since: 'now' })}
        />
        <span>now</span>
      </label>
      <label class="bench-tile">
        <input
          type="radio"
          name="since"
          value="earlier"
          checked={from.since === 'earlier'}
          onChange={() => onFrom({ since: 'earlier', wall: wallTime(hubNowMs(), zone) })}
        />
        <span>earlier</span>
      </label>
      {from.since === 'earlier' && (
        <span class="valid-when">
          <input
            type="datetime-local"
            name="validFrom"
            aria-label="Valid from this time, by the clock at the site"
            value={from.wall}
            max={wallTime(hubNowMs(), zone)}
            onInput={(event) => onFrom({ since: 'earlier', wall: event.currentTarget.value })}
          />
          {isWrong && <small class="field-wrong">A day and time that have been.</small>}
        </span>
      )}
    </fieldset>
  )
}
