import { useState } from 'preact/hooks'
import type { ProbeReadiness } from '../../../hub/contract/readiness.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { dayText, minuteText } from '../../format-time.ts'
import { quantityWords } from '../../quantities.ts'
import { differenceText } from '../fit/value-digits.ts'
import { VerdictMark } from '../fit/verdict-mark.tsx'
import { benchPath } from '../places.ts'
import { daysText, valueUnitOf } from './row-words.ts'
import { STATE_SHAPES, WANTED } from './states.ts'
import { WithdrawProbe } from './withdraw-probe.tsx'

/** One probe of the sheet: who it is, how it stands and why, and what can be done with it. */
export function ReadinessRow({ survey, row }: { survey: SurveyFile; row: ProbeReadiness }) {
  const [isAsking, setAsking] = useState(false)
  const probe = survey.probes.find(({ id }) => id === row.probe)
  const check = row.checks.at(-1)
  const wanted = WANTED[row.state]
  const zone = siteZone.value
  const state = row.state.replaceAll(' ', '-')
  const calibratedMs = row.calibratedAt === null ? null : Date.parse(row.calibratedAt)
  return (
    <tr data-probe={row.probe} data-state={row.state} class={`of-${state}`}>
      <th scope="row" class="row-probe">
        <b>{row.probe}</b>
        <span>{quantityWords(row.quantity).label}</span>
        <small>
          {probe?.serialNumber ?? 'no serial number'} · {row.board}, {row.channel}
        </small>
      </th>
      <td class="row-state">
        <span class={`state state-${state}`}>
          <svg class="mark" viewBox="0 0 16 16" width="20" height="20" aria-hidden="true">
            <path d={STATE_SHAPES[row.state]} />
          </svg>
          {row.state}
        </span>
        <small>{row.why}</small>
      </td>
      <td class="row-calibrated">
        {calibratedMs === null || row.ageDays === null ? (
          <span class="row-none">never</span>
        ) : (
          <>
            <span>
              {dayText(calibratedMs, zone)}, {minuteText(calibratedMs, zone)}
            </span>
            {row.verdict && <VerdictMark verdict={row.verdict} />}
            <small>
              {daysText(row.ageDays)} old of {daysText(row.intervalDays)}
            </small>
            <span class={`age${row.ageDays > row.intervalDays ? ' is-over' : ''}`} aria-hidden="true">
              <span style={{ width: `${Math.min(100, (100 * row.ageDays) / row.intervalDays)}%` }} />
            </span>
          </>
        )}
      </td>
      <td class="row-check">
        {check === undefined ? (
          <span class="row-none">none</span>
        ) : (
          <>
            <span>
              {check.error === null
                ? 'no reading'
                : `off by ${differenceText(check.error, valueUnitOf(survey, check.calibration))}`}
            </span>
            {check.verdict && <VerdictMark verdict={check.verdict} />}
            <small>
              {check.referenceName}, {minuteText(Date.parse(check.at), zone)}
            </small>
          </>
        )}
      </td>
      <td class="row-ways not-print">
        <a
          class={wanted === 'calibrate' ? 'button' : 'button plain'}
          href={benchPath.probe(survey.id, row.probe)}
        >
          Calibrate
        </a>
        <a
          class={wanted === 'check' ? 'button' : 'button plain'}
          href={benchPath.probe(survey.id, row.probe, 'check')}
        >
          Check
        </a>
        <a class="button plain" href={benchPath.probe(survey.id, row.probe, 'records')}>
          Records
        </a>
        <WithdrawProbe
          survey={survey.id}
          probe={row.probe}
          isWithdrawn={row.state === 'withdrawn'}
          isAsking={isAsking}
          onAsking={setAsking}
        />
      </td>
    </tr>
  )
}
