import type { ChannelNow } from '../../hub/contract/reading.ts'
import { expandedText, signalText, valueText } from '../format.ts'
import { ageText } from '../format-time.ts'
import type { LiveSeries } from '../quadrat-points.ts'
import { quantityWords } from '../quantities.ts'
import { standingOf, standingWords } from '../standing.ts'
import { StandingMark } from './marks.tsx'
import { oneMethodText } from './method-text.ts'

const VERDICTS = { pass: 'passed', warn: 'passed with a warning', fail: 'failed' }

/** The margin beside a chart: the newest value, the probe, how it measures, and what its calibration is worth. */
export function SeriesMargin(props: { live: LiveSeries; channel: ChannelNow | undefined; nowMs: number }) {
  const { live, channel, nowMs } = props
  const { quantity, unit, probe, method } = live.series
  const latest = channel?.latest ?? null
  const value = latest?.[4] ?? null
  const uncertainty = latest?.[5] ?? null
  const standing = standingOf(channel)
  return (
    <div class="series-margin">
      <h2>{quantityWords(quantity).label}</h2>
      {latest && channel ? (
        <p class={`newest ${standing}`}>
          <b class="figures" data-quantity={quantity} data-value={value === null ? '' : String(value)}>
            {value === null
              ? signalText(latest[3], channel.signalUnit)
              : valueText(quantity, channel.valueUnit ?? unit, value, uncertainty)}
          </b>{' '}
          {value !== null && uncertainty !== null && (
            <span class="figures">{expandedText(quantity, channel.valueUnit ?? unit, uncertainty)}</span>
          )}
          <small>{ageText(latest[2], nowMs)}</small>
        </p>
      ) : (
        <p class="newest">
          <small>{channel ? 'no reading yet' : 'this probe has been moved away'}</small>
        </p>
      )}
      {channel && standing !== 'clean' && standing !== 'unchecked' && (
        <p class={`tag tag-${standing}`}>
          <StandingMark standing={standing} />
          {standingWords[standing]}
        </p>
      )}
      {channel?.why.map((reason) => (
        <p class="why" key={reason.test}>
          {reason.text}
        </p>
      ))}
      {live.isCorrected && (
        <p class="tag drift-key">
          <svg viewBox="0 0 34 10" width="34" height="10" aria-hidden="true">
            <path d="M0 5h34" fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray="7 5" />
          </svg>
          corrected for drift
        </p>
      )}
      <dl class="margin-notes">
        <div>
          <dt>Probe</dt>
          <dd>{probe}</dd>
        </div>
        <div>
          <dt>Method</dt>
          <dd>{oneMethodText(method) || 'not written down'}</dd>
        </div>
        <div>
          <dt>Calibration</dt>
          <dd>
            {channel?.calibration
              ? `${channel.calibration}${channel.verdict ? `, ${VERDICTS[channel.verdict]}` : ''}`
              : 'none: no clean values'}
          </dd>
        </div>
      </dl>
    </div>
  )
}
