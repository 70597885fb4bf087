import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { signalText, valueText } from '../format.ts'
import { ageText } from '../format-time.ts'
import { quantityWords } from '../quantities.ts'
import { standingOf, standingWords } from '../standing.ts'
import { StandingMark } from './marks.tsx'
import { PlaceChannel } from './place-channel.tsx'
import { ProbeChanges } from './probe-changes.tsx'

/** One channel: its live signal, what it is, and the way to change that. */
export function ChannelLine(props: {
  channel: ChannelNow
  survey: SurveyFile | null
  nowMs: number
  isOpen: boolean
  onOpen: (isOpen: boolean) => void
  onSaid: (said: string) => void
}) {
  const { channel, survey, isOpen, onOpen, onSaid, nowMs } = props
  const { latest, quantity, probe } = channel
  const standing = standingOf(channel)
  const isFlagged = standing === 'fail' || standing === 'suspect' || standing === 'uncalibrated'
  const done = (said: string) => {
    onSaid(said)
    onOpen(false)
  }
  return (
    <li class="channel-line" data-channel={channel.channel}>
      <span class="channel-name">{channel.channel}</span>
      <span class="channel-signal figures">{latest ? signalText(latest[3], channel.signalUnit) : '–'}</span>
      <span class="channel-value">
        {latest && latest[4] !== null && quantity !== null && (
          <b class="figures">{valueText(quantity, channel.valueUnit, latest[4], latest[5])}</b>
        )}
        {probe !== null && isFlagged && (
          <span class={`tag tag-${standing}`}>
            <StandingMark standing={standing} />
            {standingWords[standing]}
          </span>
        )}
      </span>
      <span class="channel-place">
        {probe === null
          ? 'no probe named'
          : `${quantity === null ? '' : `${quantityWords(quantity).label}, `}${probe}, ${channel.quadrat === null ? 'in transit' : `at ${channel.quadrat}`}${survey !== null && channel.survey !== survey.id ? ` of ${channel.survey}` : ''}`}
      </span>
      <span class="channel-age">{latest ? ageText(latest[2], nowMs) : ''}</span>
      {survey && (probe === null || channel.survey === survey.id) && (
        <button type="button" class="plain" aria-expanded={isOpen} onClick={() => onOpen(!isOpen)}>
          {isOpen ? 'Close' : probe === null ? 'Put in place' : 'Change'}
        </button>
      )}
      {isOpen &&
        survey &&
        (probe === null ? (
          <PlaceChannel channel={channel} survey={survey} onDone={done} onCancel={() => onOpen(false)} />
        ) : (
          <ProbeChanges
            channel={channel}
            probe={probe}
            survey={survey}
            onDone={onSaid}
            onCancel={() => onOpen(false)}
          />
        ))}
    </li>
  )
}
