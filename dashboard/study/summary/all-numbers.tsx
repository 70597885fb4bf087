import { useEffect, useRef } from 'preact/hooks'
import type { QuadratSummary } from '../../../hub/contract/study.ts'
import { siteZone } from '../../current-survey.ts'
import { digitsText, numberText, unitText } from '../../format.ts'
import { pathTo } from '../../router.ts'
import { ScrollBox } from '../scroll-box.tsx'
import { numberLines } from './number-lines.ts'

/** Everything behind one cell of the table, and the way back to its readings. */
export function AllNumbers(props: {
  survey: string
  label: string
  summary: QuadratSummary
  onClose: () => void
}) {
  const { survey, label, summary, onClose } = props
  const section = useRef<HTMLElement>(null)
  useEffect(() => section.current?.scrollIntoView({ block: 'nearest' }), [summary.quadrat, label])
  return (
    <section
      ref={section}
      class="all-numbers"
      aria-label={`${label} at ${summary.quadrat}`}
      data-numbers={summary.quadrat}
    >
      <h2>
        {label} at {summary.quadrat}
      </h2>
      <dl>
        {numberLines(summary, siteZone.value).map(({ name, text, note }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              {text}
              {note !== '' && <small>{note}</small>}
            </dd>
          </div>
        ))}
      </dl>
      {summary.days.length > 0 && (
        <ScrollBox name="By day">
          <table class="study-table">
            <caption>By day, {unitText(summary.unit)}</caption>
            <thead>
              <tr>
                <th scope="col">day</th>
                <th scope="col">n</th>
                <th scope="col">lowest</th>
                <th scope="col">highest</th>
                <th scope="col">amplitude</th>
                <th scope="col">mean</th>
                {summary.days.some(({ sumLuxHours }) => sumLuxHours !== null) && (
                  <th scope="col">sum, lx·h</th>
                )}
              </tr>
            </thead>
            <tbody>
              {summary.days.map(({ day, n, low, high, amplitude, mean, sumLuxHours }) => (
                <tr key={day}>
                  <th scope="row">{day}</th>
                  <td>{numberText(n, 0)}</td>
                  {[low, high, amplitude, mean].map((value, place) => (
                    <td key={['low', 'high', 'amplitude', 'mean'][place]}>
                      {digitsText(summary.quantity, summary.unit, value, null)}
                    </td>
                  ))}
                  {sumLuxHours !== null && <td>{numberText(sumLuxHours, 0)}</td>}
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      )}
      <p class="form-ways">
        <a class="button plain" href={pathTo.quadrat(survey, summary.quadrat)}>
          The readings at {summary.quadrat}
        </a>
        <button type="button" class="plain" onClick={onClose}>
          Close
        </button>
      </p>
    </section>
  )
}
