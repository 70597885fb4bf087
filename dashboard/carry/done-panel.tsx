import { summariseReplicates } from '../../hub/contract/replicates.ts'
import type { SpotValue } from '../../hub/contract/spot.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { valueText } from '../format.ts'
import { quantityWords } from '../quantities.ts'
import { goTo, pathTo } from '../router.ts'
import type { Capture } from './capture.ts'
import { plusMinus, rangeText } from './held-list.tsx'
import { unsent } from './on-this-phone.ts'

/** Done here: what was kept, whether the hub has it, and where to go next. */
export function DonePanel(props: {
  survey: SurveyFile
  label: string
  captures: readonly Capture[]
  spots: readonly SpotValue[]
  next: string | null
  onAgain: () => void
}) {
  const { survey, label, captures, spots, next } = props
  const waiting = captures.filter(({ id }) => unsent.value.some((each) => each.id === id))
  return (
    <section class="carry-done" aria-label={`${label} is done`} data-done={label}>
      <h2>
        <svg class="mark" viewBox="0 0 16 16" width="30" height="30" aria-hidden="true">
          <path d="M2 2h12v12H2ZM4.6 8.4 7 10.8 11.4 5" />
        </svg>
        {label} is kept
      </h2>
      {captures.map((capture) => (
        <KeptLine
          key={capture.id}
          capture={capture}
          value={spots.find(({ spot }) => spot.id === capture.id) ?? null}
        />
      ))}
      <p role="status" data-sent={waiting.length === 0 ? 'yes' : 'no'}>
        {waiting.length === 0
          ? '✓ The hub has it.'
          : 'Safe on this phone; it is sent by itself when the hub answers.'}
      </p>
      <p class="carry-line">
        <button type="button" class="plain" onClick={props.onAgain}>
          Measure {label} again
        </button>
        <a class="button plain" href={pathTo.carry(survey.id)}>
          Look over the quadrats
        </a>
      </p>
      <div class="carry-bar">
        {next !== null ? (
          <button
            type="button"
            id="go-next"
            class="carry-main"
            onClick={() => goTo(pathTo.carry(survey.id, next))}
          >
            {label} done, go to {next}
          </button>
        ) : (
          <a class="button carry-main" href={pathTo.carry(survey.id)}>
            {label} done: that was the last one
          </a>
        )}
      </div>
    </section>
  )
}

/** The hub’s value as soon as it has answered; until then what this phone makes of it. */
function KeptLine({ capture, value }: { capture: Capture; value: SpotValue | null }) {
  const { quantity, unit, values, spot } = capture
  const counted = values.flatMap((each, index) =>
    each !== null && (spot.held?.[index]?.isSteady ?? true) ? [{ value: each, uncertainty: null }] : [],
  )
  const summary = value ?? { ...summariseReplicates(quantity, counted), unit }
  const { mean, range, expanded, warnings } = summary
  return (
    <div class="kept-line">
      <p>
        {quantityWords(quantity).label}:{' '}
        <b>
          {mean === null
            ? `${values.length} kept, none counts yet`
            : valueText(quantity, summary.unit, mean, expanded === null ? null : expanded / 2)}
        </b>
        {mean !== null && expanded !== null && value !== null && (
          <span> {plusMinus(quantity, summary.unit, expanded)} (95 %)</span>
        )}
        {range !== null && <span>, range {rangeText(quantity, summary.unit, range)}</span>}
        {spot.typed && <span class="carry-typed"> typed in</span>}
      </p>
      {warnings.map((warning) => (
        <p key={warning} class="held-warning">
          {warning}: measure again and keep all of them.
        </p>
      ))}
    </div>
  )
}
