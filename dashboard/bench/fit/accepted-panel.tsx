import { useEffect, useRef } from 'preact/hooks'
import type { AddCalibration } from '../../../hub/contract/changes.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { benchPath } from '../places.ts'
import { UndoButton } from '../undo-button.tsx'
import { RecomputeProgress } from './recompute-progress.tsx'

/** What was accepted, how far the stored values are, the way back, and what comes next. */
export function AcceptedPanel(props: {
  survey: string
  calibration: AddCalibration
  isInForce: boolean
  onUndone: () => void
}) {
  const { survey, calibration, isInForce } = props
  const panel = useRef<HTMLElement>(null)
  useEffect(() => panel.current?.scrollIntoView({ block: 'center' }), [calibration.id])
  return (
    <section class="accepted" ref={panel} data-accepted={calibration.id}>
      <h2>{isInForce ? 'Accepted' : 'On record, not in force'}</h2>
      <p>
        <b>{calibration.id}</b>
        {isInForce && ` holds from ${momentText(Date.parse(calibration.validFrom), siteZone.value)} on.`}
      </p>
      {isInForce && <RecomputeProgress />}
      <p class="accept-ways">
        {isInForce && (
          <a class="button" href={benchPath.probe(survey, calibration.probe, 'check')}>
            Now check it
          </a>
        )}
        <a class="button plain" href={benchPath.record(survey, calibration.probe, calibration.id)}>
          Printable record
        </a>
        <UndoButton survey={survey} label="Undo" onUndone={props.onUndone} />
      </p>
    </section>
  )
}
