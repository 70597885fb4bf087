import { siteZone } from '../../current-survey.ts'
import { dayText, minuteText } from '../../format-time.ts'
import { pathThrough, scaleOver } from '../fit/plot-geometry.ts'
import type { Track } from './tracked.ts'

const BOX = { width: 340, height: 120 }

/** One fact over the calibrations of a probe; hollow where a calibration did not come into force. */
export function TrackPlot({ track }: { track: Track }) {
  const x = scaleOver(
    track.at.map(({ atMs }) => atMs),
    16,
    BOX.width - 16,
    0,
  )
  const numbers = track.at.map(({ number }) => number)
  const middle = (Math.min(...numbers) + Math.max(...numbers)) / 2
  const y = scaleOver(
    [...numbers, middle - track.leastSpan / 2, middle + track.leastSpan / 2],
    BOX.height - 34,
    26,
  )
  const [first, last] = [track.at[0]!, track.at.at(-1)!]
  const zone = siteZone.value
  const isOneDay = dayText(first.atMs, zone) === dayText(last.atMs, zone)
  const timeText = (ms: number) => (isOneDay ? minuteText(ms, zone) : dayText(ms, zone))
  return (
    <figure class="track">
      <figcaption>
        {track.label}
        {track.unit === '' ? '' : `, ${track.unit}`}
      </figcaption>
      <svg
        viewBox={`0 0 ${BOX.width} ${BOX.height}`}
        role="img"
        aria-label={track.at
          .map(({ atMs, digits }) => `${dayText(atMs, zone)} ${timeText(atMs)}: ${digits}`)
          .join('; ')}
      >
        <path
          class="track-line"
          d={pathThrough(track.at.map(({ atMs, number }) => [x.at(atMs), y.at(number)]))}
        />
        {track.at.map(({ atMs, number, digits, isInForce }, index) => (
          <g key={atMs}>
            <circle
              class={isInForce ? 'track-dot' : 'track-dot is-hollow'}
              cx={x.at(atMs)}
              cy={y.at(number)}
              r="5"
            />
            {(index === 0 || index === track.at.length - 1) && (
              <text class={index === 0 ? 'at-start' : 'at-end'} x={x.at(atMs)} y={y.at(number) - 11}>
                {digits}
              </text>
            )}
          </g>
        ))}
        <text class="at-start" x="6" y={BOX.height - 8}>
          {timeText(first.atMs)}
        </text>
        <text class="at-end" x={BOX.width - 6} y={BOX.height - 8}>
          {timeText(last.atMs)}
        </text>
      </svg>
    </figure>
  )
}
