import type { ComponentChildren } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { Fields, Procedure } from '../../../calibration/index.ts'
import type { ChannelNow } from '../../../hub/contract/reading.ts'
import type { Probe } from '../../../hub/contract/survey.ts'
import { unitText } from '../../format.ts'
import { ageText, spanText } from '../../format-time.ts'
import { hubMs } from '../../hub-clock.ts'
import { rememberBottle } from './bottles.ts'
import { type Entry, fieldFaults, fieldsOf, whyNoReference } from './entries.ts'
import { heardOf, holdAnew, markOf } from './held-signals.ts'
import { captureHeld, type Held, heldUnit, moveAt, samplesOf, signalFactor, sinceMoved } from './hold.ts'
import { KeepBar } from './keep-bar.tsx'
import { liveTemperature } from './live-temperature.ts'
import { PointFields } from './point-fields.tsx'
import { signalDecimals, signalDigits, signalWithUnit } from './signal-digits.ts'
import { SignalTrace } from './signal-trace.tsx'
import { describeSettling } from './steadiness-words.ts'
import { SteadyRing } from './steady-ring.tsx'

/** Hold still … done: the live signal, how it settles, what is typed with it, and the button that keeps it. */
export function HoldPanel(props: {
  probe: Probe
  channel: ChannelNow
  procedure: Procedure
  entry: Entry
  onEntry: (entry: Entry) => void
  /** keeps the point and says what was kept */
  onKeep: (held: Held, fields: Fields, unit: string) => string
  isAutomatic: boolean
  onAutomatic: (isAutomatic: boolean) => void
  /** the point kept last was of this reference; null when there is none */
  lastReference: number | null
  title: string
  keepWords: string
  /** what the signal means by a calibration, if there is one */
  meaning?: (signal: number, fields: Fields, unit: string) => ComponentChildren
}) {
  const { probe, channel, procedure, entry, onEntry, isAutomatic } = props
  const [faults, setFaults] = useState<Record<string, string>>({})
  const [said, setSaid] = useState('')
  const nowMs = hubMs.value
  const rule = procedure.steady
  const unit = heldUnit(procedure, channel.signalUnit)
  const factor = signalFactor(procedure, channel.signalUnit)
  const heard = heardOf(channel.id).value
  const samples = samplesOf(heard, markOf(channel.id).value, factor)
  const settling = describeSettling(samples, rule, unit)
  const newest = heard.at(-1)
  const temperature = liveTemperature(probe)
  const entered = fieldsOf(procedure.perPoint, entry, temperature?.celsius ?? null)
  const reference = procedure.reference(entered)
  const why = whyNoReference(procedure, entered)
  const held = sinceMoved(samples, rule)
  const heldFor = held.length === 0 ? 0 : Math.max(0, nowMs / 1000 - held[0]!.seconds)

  const keep = () => {
    const wrong = fieldFaults(procedure.perPoint, entered, procedure.id === 'oven')
    if (why !== null) wrong['buffer'] = why
    setFaults(wrong)
    const captured = captureHeld(samples, rule)
    const first = Object.keys(wrong)[0]
    if (first !== undefined) {
      const line = document.querySelector<HTMLElement>(`.hold [name="${first}"]`)
      line?.closest('details')?.setAttribute('open', '')
      line?.focus()
      setSaid('Something is still to be said about this point.')
      return
    }
    if (captured === null) {
      setSaid('No signal has come since the last point; wait for one.')
      return
    }
    rememberBottle(entry)
    setSaid(props.onKeep(captured, entered, unit))
    holdAnew(channel.id)
    navigator.vibrate?.(90)
  }

  const isSameAgain = props.lastReference === null || props.lastReference === reference?.value
  const mayKeepItself =
    isAutomatic &&
    settling.isSteady &&
    reference !== null &&
    (isSameAgain || moveAt(samples, rule) !== null) &&
    Object.keys(fieldFaults(procedure.perPoint, entered)).length === 0
  useEffect(() => {
    if (mayKeepItself) keep()
  }, [mayKeepItself])

  const pauseMs = newest ? newest.timeMs - (heard.at(-2)?.timeMs ?? newest.timeMs) : 0
  const isLate = newest !== undefined && nowMs - newest.timeMs > Math.max(60_000, 3 * pauseMs)
  return (
    <section class="hold" data-steady={settling.isSteady ? 'yes' : 'no'} aria-label="Hold and keep a point">
      <h2 class="hold-title">{props.title}</h2>
      <SteadyRing closed={settling.closed} isSteady={settling.isSteady}>
        <p class="hold-signal">
          <output data-signal={newest ? (newest.signal * factor).toFixed(signalDecimals(unit)) : ''}>
            {newest ? signalDigits(newest.signal * factor, unit) : '…'}
          </output>
          <span class="hold-unit">{unitText(unit)}</span>
        </p>
        <p class="hold-words">{settling.words}</p>
      </SteadyRing>
      <div class="hold-beside">
        <p class="unseen" role="status">
          {settling.isSteady ? 'The signal is steady.' : 'The signal still moves.'}
        </p>
        {newest && props.meaning && (
          <p class="hold-meaning">{props.meaning(newest.signal * factor, entered, unit)}</p>
        )}
        <SignalTrace samples={samplesOf(heard, 0, factor)} held={samples} rule={rule} />
        <p class="hold-clock">
          <span>
            {isLate
              ? `Nothing new for ${spanText(nowMs - newest.timeMs)}: is ${probe.board} on?`
              : `held for ${spanText(heldFor * 1000)}, last signal ${ageText(newest?.timeMs ?? null, nowMs)}`}
          </span>
          <button type="button" class="plain bench-small" onClick={() => holdAnew(channel.id)}>
            I moved it: start again
          </button>
        </p>
      </div>
      <PointFields {...{ procedure, entry, entered, onEntry, temperature, faults }} />
      {reference && (
        <p class="hold-reference">
          Reference: <b>{reference.name}</b>
          {procedure.id === 'ph-buffers' &&
            `, pH ${reference.value.toFixed(2)} at ${Number(String(entered['temperatureCelsius']).replace(',', '.'))} °C`}
        </p>
      )}
      <KeepBar
        words={props.keepWords}
        isSteady={settling.isSteady}
        canForce={samples.length > 0}
        isAutomatic={isAutomatic}
        onAutomatic={props.onAutomatic}
        onKeep={keep}
        said={said}
        live={`${newest ? signalWithUnit(newest.signal * factor, unit) : '…'}, ${settling.words}`}
      />
    </section>
  )
}
