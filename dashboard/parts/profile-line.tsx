import type { ChannelNow } from '../../hub/contract/reading.ts'
import { standingOf } from '../standing.ts'

/** Newest values of one quantity from quadrat to quadrat: a dot each, joined where they are fit to be joined. */
export function ProfileLine(props: {
  /** px, one per quadrat, rising */
  at: readonly number[]
  channels: readonly (ChannelNow | undefined)[]
  width: number
  height: number
  padding?: number
}) {
  const { at, channels, width, height, padding = 9 } = props
  const points = channels.flatMap((channel, index) => {
    const value = channel?.latest?.[4] ?? null
    const x = at[index]
    return value === null || x === undefined ? [] : [{ x, index, value, standing: standingOf(channel) }]
  })
  const fit = points.filter(({ standing }) => standing !== 'fail')
  const low = Math.min(...fit.map(({ value }) => value))
  const high = Math.max(...fit.map(({ value }) => value))
  const y = (value: number) => {
    const part = high > low ? (value - low) / (high - low) : 0.5
    return height - padding - Math.min(1, Math.max(0, part)) * (height - 2 * padding)
  }
  // over a quadrat without a usable value the line is not drawn on
  const path = fit.map(({ x, index, value }, at) => {
    const isJoined = at > 0 && fit[at - 1]?.index === index - 1
    return `${isJoined ? 'L' : 'M'}${x.toFixed(1)} ${y(value).toFixed(1)}`
  })
  return (
    <svg class="profile" width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <path class="profile-line" d={path.join('')} />
      {points.map(({ x, value, standing }) => (
        <path key={x} class={`profile-dot dot-${standing}`} d={dotShape(standing, x, y(value))} />
      ))}
    </svg>
  )
}

function dotShape(standing: string, x: number, y: number): string {
  if (standing === 'fail') return `M${x - 5} ${y - 5}l10 10M${x + 5} ${y - 5}l-10 10`
  if (standing === 'suspect') return `M${x} ${y - 7}l7 12h-14Z`
  if (standing === 'uncalibrated') return `M${x} ${y - 6}l6 6-6 6-6-6Z`
  return `M${x - 4} ${y}a4 4 0 1 0 8 0a4 4 0 1 0-8 0`
}
