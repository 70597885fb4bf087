import { useState } from 'preact/hooks'
import { proceduresFor } from '../../../calibration/index.ts'
import type { AddCalibration } from '../../../hub/contract/changes.ts'
import type { Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { channelList } from '../../notebook.ts'
import { entryForNext, fieldsOf, startEntry } from '../hold/entries.ts'
import { heardOf } from '../hold/held-signals.ts'
import { type Held, heldUnit, signalFactor } from '../hold/hold.ts'
import { HoldPanel } from '../hold/hold-panel.tsx'
import { NoSignal } from '../hold/no-signal.tsx'
import { PutStrip } from '../hold/put-strip.tsx'
import { signalWithUnit } from '../hold/signal-digits.ts'
import { recall, remember } from '../remembered.ts'
import { AcceptPanel } from './accept-panel.tsx'
import { AcceptedPanel } from './accepted-panel.tsx'
import { attemptOf } from './attempt.ts'
import { draftOf, type KeptPoint, nextKey } from './draft.ts'
import { FitResult } from './fit-result.tsx'
import { moreAdvice } from './more-advice.ts'
import { plotPointsOf } from './plot-points.ts'
import { noteOf } from './point-notes.ts'
import { PointsTable } from './points-table.tsx'
import { ProcedureChoice } from './procedure-choice.tsx'
import { swapBeakers } from './swap-points.ts'
import { ValueNow } from './value-now.tsx'

/** Hold, keep, hold, keep; see the curve grow; accept it. */
export function CalibratePage({ survey, probe }: { survey: SurveyFile; probe: Probe }) {
  const draft = draftOf(survey.id, probe.id)
  const [isAutomatic, setAutomatic] = useState(() => recall('automatic', false))
  const [accepted, setAccepted] = useState<{
    calibration: AddCalibration
    isInForce: boolean
    points: readonly KeptPoint[]
  } | null>(null)
  const ways = proceduresFor(probe.quantity)
  const procedure = ways.find(({ id }) => id === draft.value.procedure) ?? ways[0]!
  const points = draft.value.points.filter((point) => point.procedure === procedure.id)
  const others = draft.value.points.filter((point) => point.procedure !== procedure.id)
  const typed = draft.value.settings[procedure.id] ?? {}
  const settings = { ...startEntry(procedure.settings), ...typed }
  const channel = channelList.value.find(
    (each) => each.board === probe.board && each.channel === probe.channel,
  )
  const unit = channel ? heldUnit(procedure, channel.signalUnit) : (procedure.signalUnits[0] ?? '')
  const attempt = attemptOf(procedure, points, fieldsOf(procedure.settings, settings), unit)
  const fitted = attempt.kind === 'fitted' ? attempt.fitted : null
  const drawn = plotPointsOf(procedure, points)
  const newest = channel ? heardOf(channel.id).value.at(-1) : undefined
  const live = channel && newest ? newest.signal * signalFactor(procedure, channel.signalUnit) : null
  const entry = { ...startEntry(procedure.perPoint), ...draft.value.entry }
  const change = (part: Partial<typeof draft.value>) => {
    draft.value = { ...draft.value, ...part }
  }
  const setPoints = (next: readonly KeptPoint[]) => change({ points: [...others, ...next] })

  const keep = (held: Held, fields: KeptPoint['fields']): string => {
    const key = nextKey(draft.peek().points)
    const point: KeptPoint = { ...held, fields, role: 'fit', key, atMs: hubNowMs(), procedure: procedure.id }
    const next = [...points, point]
    change({ points: [...others, ...next], entry: entryForNext(procedure, entry, next) })
    setAccepted(null)
    const known = recall<string[]>('known', [])
    if (!known.includes(procedure.id)) remember('known', [...known, procedure.id])
    const forced = held.isForced ? ', although it still moved' : ''
    return `Point ${next.length} kept${forced}: ${signalWithUnit(held.signal, unit)}, ${procedure.reference(fields)?.name ?? 'reference to follow'}.`
  }
  const lastPoint = points.at(-1)
  return (
    <div class="bench-columns">
      <div class="bench-left">
        <PutStrip probe={probe} channel={channel?.id ?? null} />
        {channel ? (
          <HoldPanel
            {...{ probe, channel, procedure, entry, isAutomatic }}
            onEntry={(next) => change({ entry: next })}
            onKeep={keep}
            onAutomatic={(next) => {
              setAutomatic(next)
              remember('automatic', next)
            }}
            lastReference={lastPoint ? (procedure.reference(lastPoint.fields)?.value ?? null) : null}
            title={`Point ${points.length + 1}${points.length < procedure.fewestPoints ? ` of at least ${procedure.fewestPoints}` : ''}`}
            keepWords="Keep this point"
            {...(fitted && fitted.verdict !== 'fail'
              ? {
                  meaning: (signal, fields) => (
                    <ValueNow
                      fitted={fitted}
                      signal={signal}
                      fields={fields}
                      unit={unit}
                      by="by this curve"
                    />
                  ),
                }
              : {})}
          />
        ) : (
          <NoSignal probe={probe} />
        )}
      </div>
      <div class="bench-right">
        <ProcedureChoice
          quantity={probe.quantity}
          procedure={procedure}
          onProcedure={(id) => change({ procedure: id, entry: {} })}
          settings={settings}
          onSettings={(next) => change({ settings: { ...draft.value.settings, [procedure.id]: next } })}
          isKnown={points.length > 0 || recall<string[]>('known', []).includes(procedure.id)}
        />
        {accepted && (
          <AcceptedPanel
            survey={survey.id}
            calibration={accepted.calibration}
            isInForce={accepted.isInForce}
            onUndone={() => setPoints(accepted.points)}
          />
        )}
        <PointsTable
          procedure={procedure}
          points={points}
          signalUnit={unit}
          valueUnit={fitted?.unit ?? (probe.quantity === 'soil_ph' ? 'pH' : '')}
          onPoints={setPoints}
        />
        {!(accepted && points.length === 0) && (
          <FitResult
            attempt={attempt}
            points={drawn}
            signalUnit={unit}
            live={live}
            more={moreAdvice(procedure, points)}
            onSwap={() => setPoints(swapBeakers(points))}
          />
        )}
        {attempt.kind === 'fitted' && !(accepted && points.length === 0) && (
          <AcceptPanel
            survey={survey}
            probe={probe}
            recipe={attempt.recipe}
            fitted={attempt.fitted}
            noteFor={(text) => noteOf(text, procedure, points, attempt.recipe, unit)}
            onAccepted={(calibration) => {
              setAccepted({ calibration, isInForce: attempt.fitted.verdict !== 'fail', points })
              setPoints([])
            }}
          />
        )}
      </div>
    </div>
  )
}
