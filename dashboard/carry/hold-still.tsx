import { signalDigits } from '../bench/hold/signal-digits.ts'
import { SignalTrace } from '../bench/hold/signal-trace.tsx'
import { SteadyRing } from '../bench/hold/steady-ring.tsx'
import { digitsText, unitText } from '../format.ts'
import { ageText, spanText } from '../format-time.ts'
import { hubMs } from '../hub-clock.ts'
import { quantityWords } from '../quantities.ts'
import { type LiveReading, samplesOf } from './held-window.ts'
import { QUIET_MS } from './hold-state.ts'
import { type ProbeNow, slowest } from './meter-now.ts'

/** The live value in a ring that closes as it settles; of a meter with several probes, the slowest closes it. */
export function HoldStill(props: {
  probes: readonly ProbeNow[]
  readings: readonly (readonly LiveReading[])[]
  heldSeconds: number
  /** since the last reading came in */
  quietMs: number
  round: number
  replicates: number
}) {
  const { probes, readings, heldSeconds, quietMs, round, replicates } = props
  const slow = slowest(probes)
  const shown = probes.length === 1 ? probes[0]! : slow
  const isSteady = probes.every(({ settling }) => settling.isSteady)
  const newestMs = Math.max(0, ...probes.map(({ newest }) => newest?.timeMs ?? 0))
  const isQuiet = newestMs === 0 || quietMs > QUIET_MS
  const place = probes.indexOf(shown)
  return (
    <div
      class="carry-still"
      data-steady={isSteady ? 'yes' : 'no'}
      data-live={shown.newest?.value ?? shown.newest?.signal ?? ''}
    >
      <SteadyRing closed={slow.settling.closed} isSteady={isSteady}>
        <p class="hold-signal">
          <output>{nowDigits(shown)}</output>
          <span class="hold-unit">
            {[
              ...new Set([
                ...(probes.length > 1 ? [quantityWords(shown.probe.quantity).short] : []),
                unitText(shown.unit),
              ]),
            ].join(' ')}
          </span>
        </p>
        <p class="hold-words">{isSteady ? shown.settling.words : `hold still: ${slow.settling.words}`}</p>
      </SteadyRing>
      <p class="unseen" role="status">
        {isSteady ? `Replicate ${round} of ${replicates}: steady.` : 'The signal still moves.'}
      </p>
      {probes.length > 1 && (
        <ul class="carry-several">
          {probes.map((each) => (
            <li key={each.probe.id}>
              <span>{quantityWords(each.probe.quantity).short}</span>
              <b>
                {nowDigits(each)} {each.unit === 'pH' ? '' : unitText(each.unit)}
              </b>
              <span>{each.settling.isSteady ? '✓ steady' : 'moves'}</span>
            </li>
          ))}
        </ul>
      )}
      {probes.some(({ isValue, newest }) => newest !== null && !isValue) && (
        <p class="carry-note">
          {probes
            .filter(({ isValue, newest }) => newest !== null && !isValue)
            .map(({ probe }) => probe.id)
            .join(', ')}{' '}
          has no calibration in force: what it sends is shown. It can be kept, and counts once it is
          calibrated.
        </p>
      )}
      {shown.probe.quantity !== 'wind_speed' && (
        <SignalTrace
          samples={samplesOf(readings[place] ?? []).samples}
          held={shown.samples}
          rule={shown.rule}
        />
      )}
      <p class={isQuiet ? 'carry-strip is-trouble' : 'carry-clock'}>
        {newestMs === 0
          ? `Nothing has come from ${probes[0]!.probe.board} yet: is it on, and in reach of the hub?`
          : isQuiet
            ? `Nothing new from ${probes[0]!.probe.board} for ${spanText(quietMs)}: is it on, and in reach?`
            : `held for ${spanText(heldSeconds * 1000)}, last reading ${ageText(newestMs, hubMs.value)}`}
      </p>
    </div>
  )
}

function nowDigits({ probe, newest, isValue, unit }: ProbeNow): string {
  if (newest === null) return '…'
  return isValue && newest.value !== null
    ? digitsText(probe.quantity, unit, newest.value, null)
    : signalDigits(newest.signal, unit)
}
