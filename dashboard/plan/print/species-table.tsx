import type { Quadrat, SurveyFile } from '../../../hub/contract/survey.ts'
import { SheetHead } from './sheet-head.tsx'

const measures = ['cover %', 'squares hit', 'touches', 'present (1) or not (0)']

/** Empty boxes, species down and quadrats across: the first column and the head are what the hub looks for. */
export function SpeciesTable(props: {
  survey: SurveyFile
  quadrats: readonly Quadrat[]
  group: string
  rows: number
}) {
  const { survey, quadrats, group, rows } = props
  return (
    <section class="paper-sheet" data-boxes={quadrats.length * rows}>
      <SheetHead survey={survey} group={group} title="Species" />
      <p class="paper-measures">
        Counted as (choose one, for the whole sheet):{' '}
        {measures.map((measure) => (
          <span key={measure}>☐ {measure}</span>
        ))}
      </p>
      <div class="sheet-scroll">
        <table class="paper-table species-table">
          <thead>
            <tr>
              <th scope="col">Species</th>
              {quadrats.map(({ label }) => (
                <th key={label} scope="col">
                  <u>{label}</u>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {Array.from({ length: rows }, (_, row) => (
              <tr key={row}>
                <td class="to-write" />
                {quadrats.map(({ label }) => (
                  <td key={label} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  )
}
