import type { ReadingExplained } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { benchPath } from '../bench/places.ts'
import { valueText } from '../format.ts'
import { momentText } from '../format-time.ts'
import { surveyKept } from '../notebook.ts'
import { decisionAt } from './by-hand/span.ts'
import { actionWords } from './decisions/decision-words.ts'
import { TakeBack } from './decisions/take-back.tsx'

interface Props {
  told: ReadingExplained
  /** its value corrected for drift, as its chart has it */
  corrected: number | null
  zone: string | undefined
}

/** What people did with a reading: decided on it by hand, or asked to see it corrected for drift. */
export function ByPeople({ told, corrected, zone }: Props) {
  const survey = told.survey === null ? null : surveyKept(told.survey).value
  if (survey === null || typeof survey === 'string' || told.probe === null) return null
  const decision = decisionAt(survey.decisions ?? [], told.probe, Date.parse(told.time))
  const drift = survey.driftCorrections?.find(
    ({ calibration, probe }) => calibration === told.calibration && probe === told.probe,
  )
  return (
    <>
      {decision && (
        <div class="decision-note" data-decision={decision.id}>
          <p>
            <b>
              By hand ({decision.id}): {actionWords[decision.action]}.
            </b>{' '}
            {decision.reason}
            {decision.by ? `, by ${decision.by}` : ''}, {momentText(Date.parse(decision.at), zone)}.
            {decision.action === 'accept' && told.flag === 4
              ? ' This one failed, so it stays left out all the same.'
              : ''}
          </p>
          <TakeBack survey={survey.id} decision={decision.id} />
        </div>
      )}
      {drift && <DriftNote {...{ survey, drift, told, corrected }} />}
    </>
  )
}

function DriftNote(props: {
  survey: SurveyFile
  drift: NonNullable<SurveyFile['driftCorrections']>[number]
  told: ReadingExplained
  corrected: number | null
}) {
  const { survey, drift, told, corrected } = props
  return (
    <p class="drift-note" data-drift={drift.calibration}>
      <b>Corrected for drift:</b>{' '}
      {corrected === null || told.quantity === null
        ? 'asked for, but not at this time, which lies after the check or has no value'
        : valueText(told.quantity, told.unit, corrected, told.uncertainty)}
      . Asked for{drift.by ? ` by ${drift.by}` : ''} from what check {drift.checks.join(' and ')} found; the
      value above stays as it was measured.{' '}
      <a class="lesser" href={benchPath.probe(survey.id, drift.probe, 'check')}>
        Checks of {drift.probe}
      </a>
    </p>
  )
}
