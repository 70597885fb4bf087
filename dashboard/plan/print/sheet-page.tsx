import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { Choice, Field } from '../../parts/field.tsx'
import { readNumber } from '../../read-number.ts'
import { PlanTabs } from '../plan-tabs.tsx'
import { PlaceTable } from './place-table.tsx'
import { SpeciesTable } from './species-table.tsx'
import { visitingOrder } from './visiting-order.ts'

/** How many columns of boxes can be written in on A4 across. */
const QUADRATS_A_SHEET = 12

/** Paper to write on: where the quadrats lie, and a table laid out as the hub reads species tables. */
export function SheetPage({ survey }: { survey: SurveyFile }) {
  const [group, setGroup] = useState('')
  const [rows, setRows] = useState('16')
  const quadrats = visitingOrder(survey, group)
  const count = Math.min(40, Math.max(4, Math.round(readNumber(rows) ?? 16)))
  const parts = Array.from({ length: Math.ceil(quadrats.length / QUADRATS_A_SHEET) }, (_, index) =>
    quadrats.slice(index * QUADRATS_A_SHEET, (index + 1) * QUADRATS_A_SHEET),
  )
  return (
    <article class="plan-paper plain-page">
      <div class="not-print">
        <PlanTabs survey={survey.id} here="sheet" />
        <h1>Paper sheet</h1>
        <p>
          Species down, quadrats across, as the hub reads a species table: type it into a spreadsheet in the
          same layout. An empty box is “not recorded”, a 0 is “looked for and not there”.
        </p>
        <div class="fields">
          {(survey.groups ?? []).length > 0 && (
            <Choice
              label="For"
              value={group}
              choices={[
                { value: '', label: 'all quadrats' },
                ...(survey.groups ?? []).map(({ label }) => ({ value: label, label: `group ${label}` })),
              ]}
              onValue={setGroup}
            />
          )}
          <Field label="Rows for species" kind="number" value={rows} onValue={setRows} width="8rem" />
        </div>
        <p class="form-ways">
          <button type="button" onClick={() => print()}>
            Print the sheet
          </button>
        </p>
      </div>
      <PlaceTable survey={survey} quadrats={quadrats} group={group} />
      {parts.map((part) => (
        <SpeciesTable key={part[0]?.label} survey={survey} quadrats={part} group={group} rows={count} />
      ))}
    </article>
  )
}
