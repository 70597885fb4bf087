import type { ChannelNow } from '../../hub/contract/reading.ts'
import { digitsText, signalText, unitText } from '../format.ts'
import type { QuantityWords } from '../quantities.ts'
import { standingOf, standingWords } from '../standing.ts'
import { LateMark, StandingMark } from './marks.tsx'
import { whenChanged } from './when-changed.tsx'

interface Props {
  quantity: QuantityWords
  channel: ChannelNow | undefined
  /** how long ago, when it is late */
  lateAge: string | null
  hasLabel: boolean
}

/** One latest value, with what stands against it in shape and words. */
export const ValueCell = whenChanged(function ValueCell({ quantity, channel, lateAge, hasLabel }: Props) {
  const standing = standingOf(channel)
  const latest = channel?.latest ?? null
  const value = latest?.[4] ?? null
  return (
    <div
      class={`value ${standing}${lateAge === null ? '' : ' late'}`}
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
        {channel && (standing !== 'clean' || lateAge !== null) && (
          <span class="against">
            {standing !== 'clean' && standing !== 'unchecked' && (
              <span class={`tag tag-${standing}`}>
                <StandingMark standing={standing} />
                {standingWords[standing]}
              </span>
            )}
            {lateAge !== null && (
              <span class="tag tag-late">
                <LateMark />
                {lateAge}
              </span>
            )}
          </span>
        )}
      </dd>
    </div>
  )
})
