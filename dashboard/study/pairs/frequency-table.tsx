import type { StudyStatistics } from '../../../hub/contract/study.ts'
import { numberText } from '../../format.ts'
import { ScrollBox } from '../scroll-box.tsx'

/** How often and how much of each species: with the intervals that so few quadrats leave. */
export function FrequencyTable({ frequency }: { frequency: StudyStatistics['frequency'] }) {
  const hasCover = frequency.some(({ meanCover }) => meanCover !== null)
  return (
    <ScrollBox name="Frequency and cover">
      <table class="study-table">
        <thead>
          <tr>
            <th scope="col">Species</th>
            <th scope="col">quadrats with it</th>
            <th scope="col">frequency, 95 %</th>
            {hasCover && <th scope="col">mean cover, 95 %</th>}
          </tr>
        </thead>
        <tbody>
          {frequency.map(
            ({ taxon, present, recorded, percent, low, high, meanCover, coverLow, coverHigh }) => (
              <tr key={taxon}>
                <th scope="row">{taxon}</th>
                <td>
                  {present} of {recorded}
                </td>
                <td>
                  {numberText(percent, 0)} % <small>{spanText(low, high)}</small>
                </td>
                {hasCover && (
                  <td>
                    {meanCover === null ? '–' : `${numberText(meanCover, 1)} %`}{' '}
                    {coverLow !== null && coverHigh !== null && (
                      <small>{spanText(coverLow, coverHigh)}</small>
                    )}
                  </td>
                )}
              </tr>
            ),
          )}
        </tbody>
      </table>
    </ScrollBox>
  )
}

function spanText(low: number, high: number): string {
  return `${numberText(low, 0)} to ${numberText(high, 0)}`
}
