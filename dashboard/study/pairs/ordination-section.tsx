import type { StudyStatistics } from '../../../hub/contract/study.ts'
import { numberText } from '../../format.ts'
import { Picture } from '../look/picture.tsx'
import { ScrollBox } from '../scroll-box.tsx'
import { coefficientText } from './number-words.ts'

/** For the advanced class: all factors at once, on their principal axes. */
export function OrdinationSection(props: { survey: string; statistics: StudyStatistics }) {
  const { survey, statistics } = props
  const { ordination, ordinationWhyNot } = statistics
  return (
    <>
      <p>
        Factors that rise and fall together are drawn as one new axis, the strongest first. Quadrats close to
        each other in the picture are alike in all factors together; it describes, and tests nothing.
      </p>
      {ordination === null ? (
        <p>{ordinationWhyNot}</p>
      ) : (
        <>
          <Picture
            survey={survey}
            name="ordination"
            alt={`Quadrats on the first two axes of ${ordination.factors.join(', ')}. The loadings are in the table below.`}
          />
          <ScrollBox name="Loadings of the axes">
            <table class="study-table">
              <caption>How much each factor has to do with each axis</caption>
              <thead>
                <tr>
                  <th scope="col">Factor</th>
                  {ordination.axes.map(({ share }, place) => (
                    <th key={place} scope="col">
                      axis {place + 1}
                      <small>{numberText(share * 100, 0)} % of the variation</small>
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {ordination.factors.map((factor, row) => (
                  <tr key={factor}>
                    <th scope="row">{factor}</th>
                    {ordination.axes.map(({ loadings }, place) => (
                      <td key={place}>{coefficientText(loadings[row] ?? null)}</td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </ScrollBox>
        </>
      )}
    </>
  )
}
