import { countText } from '../../format.ts'
import type { PlanDraft } from '../use-plan-draft.ts'
import { AddByHand } from './add-by-hand.tsx'
import { QuadratEdit } from './quadrat-edit.tsx'
import { QuadratLine } from './quadrat-line.tsx'

/** From so many on only those on the screen are laid out. */
const LONG = 100

/** The quadrats that result, each to be looked at and changed by hand. */
export function QuadratLines(props: {
  draft: PlanDraft
  /** something was placed or measured there: label and quadrat stay */
  measured: ReadonlySet<string>
  chosen: string | null
  onChoose: (label: string | null) => void
  /** a new plan is short: its list is opened on request */
  isFolded: boolean
}) {
  const { draft, chosen, onChoose } = props
  const rules = draft.drawn?.rules ?? []
  return (
    <details class="plan-fold" id="plan-quadrats" {...(props.isFolded ? {} : { open: true })}>
      <summary>
        <h2>{countText(draft.quadrats.length, 'quadrat')}, one by one</h2>
      </summary>
      <p>
        On the path, in the pond, a nest? Reject the place and say why: the next one is drawn, and the record
        stays.
      </p>
      <ul class={draft.quadrats.length > LONG ? 'plan-quadrats is-long' : 'plan-quadrats'}>
        {draft.quadrats.map((quadrat, index) => (
          <QuadratLine
            key={quadrat.label}
            quadrat={quadrat}
            edit={
              chosen === quadrat.label ? (
                <QuadratEdit
                  quadrat={quadrat}
                  rule={rules[index] ?? null}
                  draft={draft}
                  isMeasured={props.measured.has(quadrat.label)}
                  onDone={() => onChoose(null)}
                />
              ) : null
            }
            onChoose={onChoose}
          />
        ))}
      </ul>
      <AddByHand draft={draft} />
    </details>
  )
}
