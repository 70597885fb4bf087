import type { ChannelNow } from '../../hub/contract/reading.ts'
import { digitsText, signalText, unitText } from '../format.ts'
import { ageText } from '../format-time.ts'
import type { QuantityWords } from '../quantities.ts'
import { isLate, standingOf, standingWords } from '../standing.ts'
import { LateMark, StandingMark } from './marks.tsx'

interface Props {
  quantity: QuantityWords
  channel: ChannelNow | undefined
  nowMs: number
  intervalSeconds: number | undefined
  hasLabel: boolean
}

/** One latest value, with what stands against it in shape and words. */
export function ValueCell({ quantity, channel, nowMs, intervalSeconds, hasLabel }: Props) {
  const standing = standingOf(channel)
  const latest = channel?.latest ?? null
  const isOld = channel !== undefined && isLate(channel, nowMs, intervalSeconds)
  const value = latest?.[4] ?? null
  return (
    <div
      class={`value ${standing}${isOld ? ' late' : ''}`}
      title={channel?.why.map(({ text }) => text).join('; ')}
    >
      <dt class={hasLabel ? '' : 'unseen'}>{quantity.short}</dt>
      <dd>
        <span class="number" data-quantity={quantity.name} data-value={value === null ? '' : String(value)}>
          {value !== null && channel ? (
            <>
              <b>{digitsText(quantity.name, channel.valueUnit, value, latest?.[5] ?? null)}</b>
              <small> {unitText(channel.valueUnit)}</small>
            </>
          ) : latest && channel ? (
            <b class="raw">{signalText(latest[3], channel.signalUnit)}</b>
          ) : (
            <span class="none">{channel ? '–' : 'no probe'}</span>
          )}
        </span>
        {channel && (standing !== 'clean' || isOld) && (
          <span class="against">
            {standing !== 'clean' && standing !== 'unchecked' && (
              <span class={`tag tag-${standing}`}>
                <StandingMark standing={standing} />
                {standingWords[standing]}
              </span>
            )}
            {isOld && latest && (
              <span class="tag tag-late">
                <LateMark />
                {ageText(latest[2], nowMs)}
              </span>
            )}
          </span>
        )}
      </dd>
    </div>
  )
}
