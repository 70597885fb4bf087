import type { CheckJudged } from '../../../hub/contract/readiness.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { differenceText, readingDigits, withValueUnit } from '../fit/value-digits.ts'
import { VerdictMark } from '../fit/verdict-mark.tsx'

/** Every check kept of this probe, the newest first. */
export function CheckList(props: { checks: readonly CheckJudged[]; unit: string; survey: SurveyFile }) {
  const { checks, unit, survey } = props
  if (checks.length === 0) return <p class="result-empty">No check has been kept of this probe yet.</p>
  const forced = new Set((survey.checks ?? []).filter((check) => check.forced).map(({ id }) => id))
  return (
    <section class="checks">
      <h2>Checks kept</h2>
      <ul class="check-list">
        {checks.map((check) => (
          <li key={check.id} data-check={check.id}>
            <span class="check-when">
              {momentText(Date.parse(check.at), siteZone.value)}, {check.when} fieldwork
            </span>
            <span>
              {check.reading === null
                ? 'no reading: no calibration was in force'
                : `read ${withValueUnit(readingDigits(check.reading, unit), unit)}`}{' '}
              in {check.referenceName}, {withValueUnit(readingDigits(check.reference, unit), unit)}
              {forced.has(check.id) ? '; taken while it still moved' : ''}
            </span>
            {check.error !== null && check.verdict !== null && (
              <span>
                off by <b class="figures">{differenceText(check.error, unit)}</b>{' '}
                <VerdictMark verdict={check.verdict} />
              </span>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}
