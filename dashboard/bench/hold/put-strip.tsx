import { useState } from 'preact/hooks'
import type { Probe } from '../../../hub/contract/survey.ts'
import { client, messageOf } from '../../client.ts'
import { hub } from '../../notebook.ts'
import { holdAnew } from './held-signals.ts'
import { amountsOf, type PutPlace, putPlacesFor, putWish } from './put-places.ts'

/** Rehearsal only: the simulated probe is moved by pressing, not by hand. */
export function PutStrip({ probe, channel }: { probe: Probe; channel: number | null }) {
  const [typed, setTyped] = useState<Record<string, string>>({})
  const [said, setSaid] = useState('')
  const places = putPlacesFor(probe.quantity)
  if (!hub.value?.isRehearsal || places.length === 0) return null
  const put = async (place: PutPlace) => {
    try {
      const { text } = await client.putProbe(putWish(probe, place, typed))
      if (channel !== null) holdAnew(channel)
      setSaid(text)
    } catch (error) {
      setSaid(messageOf(error))
    }
  }
  return (
    <section class="put-strip" aria-label="Rehearsal: put the probe">
      <p class="put-head">
        <b>Rehearsal:</b> put the probe into or under
      </p>
      <p class="put-ways">
        {places.map((place) => (
          <button
            key={place.where}
            type="button"
            class="plain"
            data-put={place.where}
            onClick={() => void put(place)}
          >
            {place.label}
          </button>
        ))}
        {amountsOf(places).map(({ key, unit, usual }) => (
          <label key={key} class="put-amount">
            at
            <input
              inputMode="decimal"
              autoComplete="off"
              data-put-amount={key}
              value={typed[key] ?? usual}
              onInput={(event) => setTyped({ ...typed, [key]: event.currentTarget.value })}
            />
            {unit}
          </label>
        ))}
      </p>
      <p class="said" role="status" aria-live="polite">
        {said}
      </p>
    </section>
  )
}
