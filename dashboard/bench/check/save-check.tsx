import { useState } from 'preact/hooks'
import type { Fitted } from '../../../calibration/index.ts'
import type { AddCheck } from '../../../hub/contract/changes.ts'
import type { Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { client, messageOf } from '../../client.ts'
import { siteZone } from '../../current-survey.ts'
import { refreshAll } from '../../notebook.ts'
import { checkId } from '../calibration-id.ts'
import { differenceText, readingDigits, withValueUnit } from '../fit/value-digits.ts'
import { VerdictMark } from '../fit/verdict-mark.tsx'
import { rememberWho, whoBefore } from '../fit/who.ts'
import { UndoButton } from '../undo-button.tsx'
import { WhoField } from '../who-field.tsx'
import { judgeMade, type MadeCheck } from './made-check.ts'

/** Reading, reference, error, limit and verdict of the check just held; saved only when somebody says so. */
export function SaveCheck(props: {
  survey: SurveyFile
  probe: Probe
  fitted: Fitted
  made: MadeCheck | null
  onSaved: () => void
  onDropped: () => void
}) {
  const { survey, probe, fitted, made } = props
  const [when, setWhen] = useState<AddCheck['when']>('before')
  const [who, setWho] = useState(whoBefore)
  const [saved, setSaved] = useState<string | null>(null)
  const [trouble, setTrouble] = useState('')
  if (made === null) {
    return saved === null ? null : (
      <section class="accepted" data-saved-check={saved}>
        <p>
          Saved as <b>{saved}</b>. Nothing was adjusted.
        </p>
        <UndoButton key={saved} survey={survey.id} label="Undo" />
      </section>
    )
  }
  const outcome = judgeMade(probe.quantity, fitted, made)
  const unit = fitted.unit
  const save = async () => {
    const taken = (survey.checks ?? []).map(({ id }) => id)
    const id = checkId(probe.id, made.atMs, taken, siteZone.value)
    try {
      await client.keepCheck(survey.id, checkOf(id, probe.id, made, when, who))
      rememberWho(who)
      setSaved(id)
      setTrouble('')
      props.onSaved()
    } catch (error) {
      setTrouble(messageOf(error))
    }
    refreshAll()
  }
  return (
    <section class="check-made">
      {outcome.kind === 'none' ? (
        <p class="bench-warning">{outcome.why}</p>
      ) : (
        <>
          <h2>
            Verdict: <VerdictMark verdict={outcome.verdict} isLarge />
          </h2>
          <dl class="bench-facts">
            <Line label="Reads" text={withValueUnit(readingDigits(outcome.reading, unit), unit)} />
            <Line
              label="Should read"
              text={`${withValueUnit(readingDigits(made.reference.value, unit), unit)}, ${made.reference.name}`}
            />
            <Line label="Off by" text={differenceText(outcome.error, unit)} isStrong />
            <Line
              label="Allowed"
              text={`±\u00a0${differenceText(outcome.passLimit, unit).replace('+', '')}; with a warning ±\u00a0${differenceText(outcome.warnLimit, unit).replace('+', '')}`}
            />
          </dl>
          {made.held.isForced && (
            <p class="kept-mark">Taken while the signal still moved; it is saved as such.</p>
          )}
        </>
      )}
      <fieldset class="bench-few">
        <legend>This check is</legend>
        {(['before', 'after'] as const).map((each) => (
          <label key={each} class="bench-tile">
            <input
              type="radio"
              name="when"
              value={each}
              checked={when === each}
              onChange={() => setWhen(each)}
            />
            <span>{each} fieldwork</span>
          </label>
        ))}
      </fieldset>
      <WhoField id="check-who" who={who} onWho={setWho} />
      {trouble !== '' && (
        <p class="bench-warning" role="alert">
          {trouble}
        </p>
      )}
      <p class="accept-ways">
        <button type="button" class="plain" onClick={props.onDropped}>
          Do not save it
        </button>
        <button type="button" id="save-check" onClick={() => void save()}>
          Save this check
        </button>
      </p>
    </section>
  )
}

function Line({ label, text, isStrong }: { label: string; text: string; isStrong?: boolean }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd class="figures">{isStrong ? <b>{text}</b> : text}</dd>
    </div>
  )
}

function checkOf(id: string, probe: string, made: MadeCheck, when: AddCheck['when'], who: string): AddCheck {
  const { held, fields, reference } = made
  const celsius = Number(String(fields['temperatureCelsius'] ?? '').replace(',', '.'))
  const hasCelsius = fields['temperatureCelsius'] !== undefined && celsius >= -20 && celsius <= 60
  return {
    id,
    probe,
    at: new Date(made.atMs).toISOString(),
    when,
    reference: reference.value,
    referenceName: reference.name,
    ...(fields['lot'] === undefined ? {} : { lot: String(fields['lot']) }),
    ...(fields['expires'] === undefined ? {} : { expires: String(fields['expires']) }),
    ...(hasCelsius ? { temperatureCelsius: celsius } : {}),
    signal: held.signal,
    signalUnit: made.unit,
    ...(held.isForced ? { forced: true } : {}),
    ...(who.trim() === '' ? {} : { by: who.trim() }),
  }
}
