import { summariseReplicates } from '../../hub/contract/replicates.ts'
import { digitsText, unitText, valueText } from '../format.ts'
import { quantityWords } from '../quantities.ts'
import type { DraftPart } from './capture.ts'
import type { Meter } from './meters.ts'

/** What is held so far: each replicate, their mean with its ±, and where they differ too much. */
export function HeldList(props: {
  meter: Meter
  rounds: readonly (readonly DraftPart[])[]
  replicates: number
  unitOf: (probe: string) => string
  onTakeBack: () => void
  onEnough: () => void
}) {
  const { meter, rounds, replicates } = props
  if (rounds.length === 0) return null
  return (
    <section class="carry-held" aria-label="Held so far" data-held={rounds.length}>
      {meter.probes.map((probe) => {
        const parts = rounds.flatMap((round) => round.filter((part) => part.probe === probe.id))
        const unit = props.unitOf(probe.id)
        return (
          <div key={probe.id}>
            {meter.probes.length > 1 && <p class="held-of">{quantityWords(probe.quantity).label}</p>}
            <ol class="held-values" aria-label={quantityWords(probe.quantity).label}>
              {parts.map((part) => (
                <li key={part.held.from} class={part.held.isSteady ? '' : 'is-unsteady'}>
                  <b>{part.value === null ? 'kept' : digitsText(probe.quantity, unit, part.value, null)}</b>
                  {!part.held.isSteady && <small>△ not steady</small>}
                </li>
              ))}
            </ol>
            <HeldSummary quantity={probe.quantity} unit={unit} parts={parts} />
          </div>
        )
      })}
      <p class="carry-line">
        <button
          type="button"
          class="plain"
          aria-label={`Take replicate ${rounds.length} back`}
          onClick={props.onTakeBack}
        >
          Take {rounds.length} back
        </button>
        {rounds.length < replicates && (
          <button type="button" class="plain" onClick={props.onEnough}>
            Enough: keep {rounds.length === 1 ? 'it' : rounds.length}
          </button>
        )}
      </p>
    </section>
  )
}

/** Mean, ± and range of the replicates that will count, by what this phone knows now. */
function HeldSummary(props: { quantity: string; unit: string; parts: readonly DraftPart[] }) {
  const { quantity, unit, parts } = props
  const counted = parts.flatMap(({ held, value, uncertainty }) =>
    held.isSteady && value !== null ? [{ value, uncertainty }] : [],
  )
  const { n, mean, range, expanded, warnings } = summariseReplicates(quantity, counted)
  const left = parts.length - n
  return (
    <>
      {mean !== null && n > 1 && (
        <p class="held-summary">
          mean {valueText(quantity, unit, mean, expanded === null ? null : expanded / 2)}
          {expanded !== null && ` ${plusMinus(quantity, unit, expanded)} (95 %)`}
          {range !== null && `, range ${rangeText(quantity, unit, range)}`}
        </p>
      )}
      {left > 0 && (
        <p class="held-warning">
          {left === 1 ? 'One was' : `${left} were`} not steady or without a value: kept, and not counted as
          clean.
        </p>
      )}
      {warnings.map((warning) => (
        <p key={warning} class="held-warning">
          {warning}: take one more rather than leaving one out.
        </p>
      ))}
    </>
  )
}

/** `± 0.24` and its unit, of half the width of a 95 % interval. */
export function plusMinus(quantity: string, unit: string, expanded: number): string {
  return `±\u00a0${rangeText(quantity, unit, expanded)}`
}

/** A difference in the unit shown, with the digits of the quantity and its unit, pH without. */
export function rangeText(quantity: string, unit: string, difference: number): string {
  const digits = digitsText(quantity, unit, difference, difference / 2)
  const written = unitText(unit)
  const isBare = written === '' || written === 'pH'
  return isBare ? digits : `${digits}\u00a0${written}`
}
