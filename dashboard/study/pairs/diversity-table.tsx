import type { QuadratDiversity } from '../../../hub/contract/study.ts'
import { numberText } from '../../format.ts'
import { ScrollBox } from '../scroll-box.tsx'

const text = (value: number | null) => (value === null ? '–' : numberText(value, 2))

/** Species of each quadrat as numbers, with the form of the index. */
export function DiversityTable({ diversity }: { diversity: readonly QuadratDiversity[] }) {
  const forms = [...new Set(diversity.map(({ simpsonForm }) => simpsonForm))]
  return (
    <>
      <ScrollBox name="Diversity of each quadrat">
        <table class="study-table">
          <thead>
            <tr>
              <th scope="col">Quadrat</th>
              <th scope="col">species</th>
              <th scope="col">Simpson</th>
              <th scope="col">Shannon</th>
              <th scope="col">evenness</th>
            </tr>
          </thead>
          <tbody>
            {diversity.map(({ quadrat, richness, simpson, shannon, evenness }) => (
              <tr key={quadrat}>
                <th scope="row">{quadrat}</th>
                <td>{richness}</td>
                <td>{text(simpson)}</td>
                <td>{text(shannon)}</td>
                <td>{text(evenness)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <p class="field-hint">
        Simpson: {forms.join('; ')}. Shannon with the natural logarithm. Cover is not individuals: compare
        with studies that counted in the same way only.
      </p>
    </>
  )
}
