import { countText } from '../format.ts'
import { readNumber } from '../read-number.ts'
import { markCount } from '../tape-geometry.ts'
import type { FieldFaults } from './form/field-reader.ts'
import { placeWords } from './place-words.ts'
import type { PlanDraft } from './use-plan-draft.ts'

const NAMED_AT_MOST = 8

/** Under the drawing: how many marks and quadrats, what is wrong, what is weak. */
export function PlanStatus({ draft, faults }: { draft: PlanDraft; faults: FieldFaults }) {
  const { form, quadrats, drawn, trouble } = draft
  const lifted = quadrats.filter((quadrat) => quadrat.lifted !== undefined).length
  const list = Object.entries(faults)
  const marks = form.transects.flatMap((tape) => {
    const [length, spacing] = [readNumber(tape.lengthMetres), readNumber(tape.markSpacingMetres)]
    if (length === null || spacing === null || length <= 0 || spacing <= 0) return []
    return [`${tape.id} has ${countText(markCount(length, spacing), 'mark')} (${length} ÷ ${spacing} + 1).`]
  })
  return (
    <div class="plan-status">
      <p role="status" data-quadrats={quadrats.length} data-busy={draft.isBusy}>
        {countText(quadrats.length, 'quadrat')}
        {lifted > 0 ? `, ${lifted} of them lifted` : ''}. {marks.join(' ')}
        {draft.isBusy ? ' Drawing …' : ''}
      </p>
      {trouble !== '' && (
        <p class="field-wrong" role="alert">
          {trouble} The drawing is as it was before.
        </p>
      )}
      {list.length > 0 && (
        <ul class="plan-faults" role="alert">
          {list.slice(0, NAMED_AT_MOST).map(([path, message]) => (
            <li key={path} data-fault={path}>
              {placeWords(path, quadrats)}: {message}
            </li>
          ))}
          {list.length > NAMED_AT_MOST && <li>and {list.length - NAMED_AT_MOST} more</li>}
        </ul>
      )}
      {list.length === 0 &&
        drawn?.warnings.map((warning) => (
          <p key={warning} class="plan-warning" data-plan-warning>
            {warning}
          </p>
        ))}
    </div>
  )
}
