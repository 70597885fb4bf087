import { fitCalibration, isRefusal } from '../../../calibration/index.ts'
import type { Calibration, Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { hubMs } from '../../hub-clock.ts'
import { factLines } from '../fit/fact-lines.ts'
import { VerdictMark } from '../fit/verdict-mark.tsx'
import { benchPath } from '../places.ts'
import { calibrationsOf, inForceAt, verdictOf } from './in-force.ts'
import { TrackPlot } from './track-plot.tsx'
import { tracksOf } from './tracked.ts'
import { WithdrawCalibration } from './withdraw-calibration.tsx'

/** Everything this probe was ever calibrated with: nothing is ever thrown away. */
export function RecordsPage({ survey, probe }: { survey: SurveyFile; probe: Probe }) {
  const calibrations = calibrationsOf(survey, probe.id)
  const inForce = inForceAt(survey, probe.id, hubMs.value)
  if (calibrations.length === 0) {
    return (
      <section class="check-none">
        <p>This probe has never been calibrated.</p>
        <p>
          <a class="button" href={benchPath.probe(survey.id, probe.id)}>
            Calibrate {probe.id}
          </a>
        </p>
      </section>
    )
  }
  const tracks = tracksOf(calibrations)
  return (
    <div class="records">
      {tracks.length > 0 && (
        <div class="tracks">
          {tracks.map((track) => (
            <TrackPlot key={track.name} track={track} />
          ))}
        </div>
      )}
      <ol class="record-list">
        {calibrations.map((calibration) => (
          <Entry
            key={calibration.id}
            {...{ survey, probe, calibration }}
            isInForce={calibration.id === inForce?.id}
          />
        ))}
      </ol>
    </div>
  )
}

function Entry(props: { survey: SurveyFile; probe: Probe; calibration: Calibration; isInForce: boolean }) {
  const { survey, probe, calibration, isInForce } = props
  const fitted = fitCalibration(calibration.recipe)
  const facts = isRefusal(fitted) ? [] : factLines(fitted.facts).slice(0, 3)
  return (
    <li data-calibration={calibration.id} class={isInForce ? 'is-in-force' : ''}>
      <p class="record-head">
        <b>{momentText(Date.parse(calibration.validFrom), siteZone.value)}</b>
        <VerdictMark verdict={verdictOf(calibration)} />
        <span>{standingWords(calibration, isInForce)}</span>
      </p>
      <p class="record-facts">
        {facts
          .map(({ label, digits, unit, words }) =>
            digits === null ? `${label} ${words}` : `${label} ${digits} ${unit}`,
          )
          .join(' · ')}
      </p>
      <p class="record-about">
        <small>
          {[calibration.id, calibration.by ? `by ${calibration.by}` : '', calibration.note ?? '']
            .filter(Boolean)
            .join(' · ')}
        </small>
      </p>
      <p class="accept-ways">
        <a class="button plain" href={benchPath.record(survey.id, probe.id, calibration.id)}>
          Printable record
        </a>
        {!calibration.withdrawn && <WithdrawCalibration survey={survey.id} calibration={calibration} />}
      </p>
    </li>
  )
}

function standingWords(calibration: Calibration, isInForce: boolean): string {
  if (calibration.withdrawn) return `withdrawn: ${calibration.withdrawn.reason}`
  if (verdictOf(calibration) === 'fail') return 'on record only, never in force'
  return isInForce ? 'in force now' : 'held until the next one'
}
