import { useState } from 'preact/hooks'
import { type Fields, fitCalibration, isRefusal } from '../../../calibration/index.ts'
import type { Calibration, Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { hubMs, hubNowMs } from '../../hub-clock.ts'
import { channelList } from '../../notebook.ts'
import { ValueNow } from '../fit/value-now.tsx'
import { type Entry, startEntry } from '../hold/entries.ts'
import type { Held } from '../hold/hold.ts'
import { HoldPanel } from '../hold/hold-panel.tsx'
import { NoSignal } from '../hold/no-signal.tsx'
import { PutStrip } from '../hold/put-strip.tsx'
import { benchPath } from '../places.ts'
import { inForceAt } from '../records/in-force.ts'
import { inForceWords } from '../records/in-force-words.ts'
import { CheckList } from './check-list.tsx'
import { checkProcedure } from './check-procedure.ts'
import { DriftPanel } from './drift-panel.tsx'
import type { MadeCheck } from './made-check.ts'
import { SaveCheck } from './save-check.tsx'
import { useChecks } from './use-checks.ts'

/** A known reference, read without adjusting anything: is the calibration still true? */
export function CheckPage({ survey, probe }: { survey: SurveyFile; probe: Probe }) {
  const inForce = inForceAt(survey, probe.id, hubMs.value)
  if (inForce === null) {
    return (
      <section class="check-none">
        <p>
          No calibration is in force, so there is nothing a check could be held against. Calibrate the probe
          first.
        </p>
        <p>
          <a class="button" href={benchPath.probe(survey.id, probe.id)}>
            Calibrate {probe.id}
          </a>
        </p>
      </section>
    )
  }
  return <CheckOf key={inForce.id} survey={survey} probe={probe} inForce={inForce} />
}

function CheckOf({ survey, probe, inForce }: { survey: SurveyFile; probe: Probe; inForce: Calibration }) {
  const procedure = checkProcedure(probe.quantity, inForce.recipe.kind)
  const fitted = fitCalibration(inForce.recipe)
  const [entry, setEntry] = useState<Entry>(() => startEntry(procedure.perPoint))
  const [isAutomatic, setAutomatic] = useState(false)
  const [made, setMade] = useState<MadeCheck | null>(null)
  const [checks, refreshChecks] = useChecks(survey.id, probe.id)
  const channel = channelList.value.find(
    (each) => each.board === probe.board && each.channel === probe.channel,
  )
  if (isRefusal(fitted)) return <p class="bench-warning">{fitted.message}</p>
  const keep = (held: Held, fields: Fields, unit: string): string => {
    const reference = procedure.reference(fields)
    if (reference === null) return 'The reference is not known yet; fill in the rest.'
    setMade({ held, fields, unit, atMs: hubNowMs(), reference })
    return 'Held. See the verdict, then save it.'
  }
  return (
    <div class="bench-columns">
      <div class="bench-left">
        <PutStrip probe={probe} channel={channel?.id ?? null} />
        <p class="check-promise">
          <b>A check never adjusts anything.</b> It is read by the calibration as it is and kept beside it.{' '}
          {inForceWords(survey, probe.id, 'is')}
        </p>
        {channel ? (
          <HoldPanel
            {...{ probe, channel, procedure, entry, isAutomatic }}
            onEntry={setEntry}
            onKeep={keep}
            onAutomatic={setAutomatic}
            lastReference={made?.reference.value ?? null}
            title="Check against a known reference"
            keepWords="Take the check"
            meaning={(signal, fields, unit) => (
              <ValueNow
                fitted={fitted}
                signal={signal}
                fields={fields}
                unit={unit}
                by="by the calibration in force"
              />
            )}
          />
        ) : (
          <NoSignal probe={probe} />
        )}
      </div>
      <div class="bench-right">
        <SaveCheck
          {...{ survey, probe, fitted, made }}
          onSaved={() => {
            setMade(null)
            refreshChecks()
          }}
          onDropped={() => setMade(null)}
        />
        <CheckList checks={checks} unit={fitted.unit} survey={survey} />
        <DriftPanel {...{ survey, probe, inForce, checks }} unit={fitted.unit} />
      </div>
    </div>
  )
}
