import { useState } from 'preact/hooks'
import type { Quadrat } from '../../../hub/contract/survey.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { Field } from '../../parts/field.tsx'
import { readNumber } from '../../read-number.ts'
import type { PlanDraft } from '../use-plan-draft.ts'
import { liftQuadrat, putQuadratBack, rejectPlace, replaceQuadrat, takeQuadratOut } from './change-quadrat.ts'

type PlaceField = 'distanceMetres' | 'offsetMetres' | 'xMetres' | 'yMetres'

const placeFields: Record<'tape' | 'plot', readonly [PlaceField, string][]> = {
  tape: [
    ['distanceMetres', 'Distance, m'],
    ['offsetMetres', 'Right of the tape, m'],
  ],
  plot: [
    ['xMetres', 'Corner x, m'],
    ['yMetres', 'Corner y, m'],
  ],
}

/** Label and place by hand; reject, lift or put back, with a reason. */
export function QuadratEdit(props: {
  quadrat: Quadrat
  rule: number | null
  draft: PlanDraft
  isMeasured: boolean
  onDone: () => void
}) {
  const { quadrat, rule, draft, isMeasured, onDone } = props
  const fields = placeFields[quadrat.plot === undefined ? 'tape' : 'plot']
  const [label, setLabel] = useState(quadrat.label)
  const [places, setPlaces] = useState(() => fields.map(([field]) => String(quadrat[field] ?? 0)))
  const [reason, setReason] = useState('')
  const [isTried, setTried] = useState(false)
  const ruleName = rule === null ? undefined : draft.form.plan[rule]?.rule
  const canReject = (ruleName === 'random' || ruleName === 'stratified') && !isMeasured && !quadrat.lifted
  const numbers = places.map(readNumber)
  const placeFaults = fields.map(([field], index) => {
    const metres = numbers[index] ?? null
    if (metres === null) return 'A number of metres.'
    return metres < 0 && field !== 'offsetMetres' ? 'None below 0.' : undefined
  })
  const trimmed = label.trim()
  const labelFault =
    trimmed === ''
      ? 'Give it a label.'
      : trimmed !== quadrat.label && draft.quadrats.some((other) => other.label === trimmed)
        ? 'Another quadrat has this label.'
        : undefined
  const apply = () => {
    if (labelFault !== undefined || placeFaults.some((fault) => fault !== undefined)) return
    const place = Object.fromEntries(
      fields
        .map(([field], index) => [field, numbers[index]] as const)
        .filter(
          ([field, metres]) => field !== 'offsetMetres' || metres !== 0 || quadrat.offsetMetres !== undefined,
        ),
    )
    draft.change(replaceQuadrat(draft, quadrat.label, { ...quadrat, ...place, label: trimmed }))
    onDone()
  }
  const withReason = (change: () => Parameters<PlanDraft['change']>[0]) => () => {
    setTried(true)
    if (reason.trim() === '') return
    draft.change(change())
    onDone()
  }
  return (
    <div class="entry-form">
      <div class="fields">
        {isMeasured ? (
          <p class="field-hint">Something was placed or measured at {quadrat.label}: it keeps its label.</p>
        ) : (
          <Field label="Label" value={label} onValue={setLabel} wrong={labelFault} width="8rem" />
        )}
        {fields.map(([field, words], index) => (
          <Field
            key={field}
            label={words}
            kind="number"
            value={places[index] ?? ''}
            onValue={(text) => setPlaces(places.map((other, at) => (at === index ? text : other)))}
            wrong={placeFaults[index]}
            width="8rem"
          />
        ))}
      </div>
      <p class="form-ways">
        <button type="button" class="plain" onClick={apply}>
          Use this
        </button>
        {quadrat.lifted && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              draft.change(putQuadratBack(draft, quadrat.label))
              onDone()
            }}
          >
            Put it back
          </button>
        )}
        {!isMeasured && !canReject && (
          <button
            type="button"
            class="plain"
            onClick={() => draft.change(takeQuadratOut(draft, quadrat.label))}
          >
            Take it out of the plan
          </button>
        )}
      </p>
      {!quadrat.lifted && (
        <div class="plan-reason">
          <Field
            label="Why not here?"
            value={reason}
            onValue={setReason}
            suggestions={['on the path', 'in the pond', 'a nest']}
            hint="Nettles are no reason."
            wrong={isTried && reason.trim() === '' ? 'Say why: it stays on record.' : undefined}
          />
          <p class="form-ways">
            {canReject && rule !== null && (
              <button
                type="button"
                data-reject={quadrat.label}
                onClick={withReason(() => rejectPlace(draft, quadrat, rule, reason.trim()))}
              >
                Reject this place, draw the next
              </button>
            )}
            <button
              type="button"
              class="plain"
              onClick={withReason(() =>
                liftQuadrat(draft, quadrat.label, reason.trim(), new Date(hubNowMs()).toISOString()),
              )}
            >
              Lift the frame
            </button>
          </p>
        </div>
      )}
    </div>
  )
}
