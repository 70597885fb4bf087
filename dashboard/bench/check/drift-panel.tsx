import { useState } from 'preact/hooks'
import type { CheckJudged } from '../../../hub/contract/readiness.ts'
import type { Calibration, Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { client, messageOf } from '../../client.ts'
import { siteZone } from '../../current-survey.ts'
import { minuteText, momentText } from '../../format-time.ts'
import { refreshAll } from '../../notebook.ts'
import { differenceText, readingDigits, withValueUnit } from '../fit/value-digits.ts'
import { whoBefore } from '../fit/who.ts'
import { checksForDrift, driftAdvice, driftShown, isOneOccasion, ratingWords } from './drift-words.ts'

/** After fieldwork: what the drift between calibration and check would take off, and the button that shows it. */
export function DriftPanel(props: {
  survey: SurveyFile
  probe: Probe
  inForce: Calibration
  checks: readonly CheckJudged[]
  unit: string
}) {
  const { survey, probe, inForce, unit } = props
  const usable = checksForDrift(props.checks, inForce.id)
  const asked = survey.driftCorrections?.find(
    ({ calibration, probe: its }) => calibration === inForce.id && its === probe.id,
  )
  const [chosen, setChosen] = useState<readonly string[] | null>(null)
  const [said, setSaid] = useState('')
  if (usable.length === 0) {
    return (
      <p class="result-empty">
        Drift can be corrected once a check <b>after</b> fieldwork is saved under this calibration.
      </p>
    )
  }
  const ids = chosen ?? asked?.checks ?? [usable[0]!.id]
  const used = usable.filter(({ id }) => ids.includes(id))
  const middle = used.reduce((sum, { reading }) => sum + reading, 0) / Math.max(1, used.length)
  const shown = used.length === 0 ? null : driftShown(Date.parse(inForce.validFrom), used, middle)
  const worst = used.reduce((most, { error }) => (Math.abs(error) > Math.abs(most) ? error : most), 0)
  const send = async (checks: string[], words: string) => {
    const who = whoBefore()
    try {
      await client.setDrift(survey.id, {
        probe: probe.id,
        calibration: inForce.id,
        checks,
        ...(who === '' ? {} : { by: who }),
      })
      setSaid(words)
      setChosen(null)
    } catch (error) {
      setSaid(messageOf(error))
    }
    refreshAll()
  }
  const toggle = (id: string) =>
    setChosen(ids.includes(id) ? ids.filter((each) => each !== id) : [...ids, id].slice(-2))
  const isSplit = used.length === 2 && !isOneOccasion(used)
  return (
    <section class="drift">
      <h2>Drift since the calibration</h2>
      <p>
        Take one or two checks of one occasion. The error is taken to have grown evenly from nothing at the
        calibration to what the check found.
      </p>
      {usable.map((check) => (
        <label key={check.id} class="bench-tick">
          <input type="checkbox" checked={ids.includes(check.id)} onChange={() => toggle(check.id)} />
          <span>
            {momentText(Date.parse(check.at), siteZone.value)}: off by{' '}
            <b class="figures">{differenceText(check.error, unit)}</b> in {check.referenceName}
          </span>
        </label>
      ))}
      {isSplit && <p class="bench-warning">These two are hours apart; take two of one occasion.</p>}
      {typeof shown === 'string' && <p class="bench-warning">{shown}</p>}
      {shown !== null && typeof shown === 'object' && (
        <>
          <table class="drift-table">
            <thead>
              <tr>
                <th scope="col">A reading of {withValueUnit(readingDigits(middle, unit), unit)}</th>
                <th scope="col">taken off</th>
                <th scope="col">shown beside it</th>
              </tr>
            </thead>
            <tbody class="figures">
              <DriftRow
                when="at the calibration"
                at={inForce.validFrom}
                off={0}
                reading={middle}
                unit={unit}
              />
              <DriftRow when="half-way" off={shown.halfway.error} reading={middle} unit={unit} />
              <DriftRow
                when="at the check"
                at={used[0]!.at}
                off={shown.errorAtCheck}
                reading={middle}
                unit={unit}
              />
            </tbody>
          </table>
          <p>
            {driftAdvice(probe.quantity, worst)} {ratingWords(probe.quantity, worst)} Corrected values are
            always shown beside the uncorrected ones, never in their place.
          </p>
        </>
      )}
      <p class="accept-ways">
        {asked && (
          <button
            type="button"
            class="plain"
            onClick={() => void send([], 'Only the uncorrected values are shown again.')}
          >
            Take the correction away
          </button>
        )}
        <button
          type="button"
          id="correct-drift"
          disabled={used.length === 0 || isSplit || typeof shown === 'string'}
          onClick={() =>
            void send(
              used.map(({ id }) => id),
              'Corrected values are shown beside the uncorrected ones now.',
            )
          }
        >
          {asked ? 'Use these checks instead' : 'Show corrected values as well'}
        </button>
      </p>
      <p class="said" role="status">
        {said}
      </p>
    </section>
  )
}

function DriftRow(props: { when: string; at?: string; off: number; reading: number; unit: string }) {
  const { when, at, off, reading, unit } = props
  return (
    <tr>
      <th scope="row">
        {when}
        {at === undefined ? '' : `, ${minuteText(Date.parse(at), siteZone.value)}`}
      </th>
      <td>{differenceText(off, unit)}</td>
      <td>{withValueUnit(readingDigits(reading - off, unit), unit)}</td>
    </tr>
  )
}
