import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { heardOf } from '../bench/hold/held-signals.ts'
import { countText, signalText } from '../format.ts'
import { MinuteTrace } from './minute-trace.tsx'
import { isMoving } from './which-moves.ts'
import './which-is-which.css'

/** Housekeeping of a board: no probe to be placed. */
const HOUSEKEEPING = /batt|volt|supply|dropped/i

/** A longer list is opened by hand; the answer stands above it. */
const OPEN_UP_TO = 12

/** Channels that talk and stand nowhere: no probe named, or one that is neither carried nor a reference. */
export function unplacedChannels(
  channels: readonly ChannelNow[],
  surveys: readonly (SurveyFile | null)[],
): ChannelNow[] {
  const probes = new Map(surveys.flatMap((survey) => survey?.probes ?? []).map((probe) => [probe.id, probe]))
  return channels.filter((channel) => {
    if (channel.latest === null || HOUSEKEEPING.test(channel.channel)) return false
    if (channel.probe === null) return true
    const probe = probes.get(channel.probe)
    const isElsewhere = probe?.isCarried || probe?.isTyped || probe?.reference !== undefined
    return channel.quadrat === null && !isElsewhere
  })
}

/** “Shake it, cover the light sensor: which one moves?” Each channel with its value, its last minute, and the answer. */
export function WhichIsWhich({ channels }: { channels: readonly ChannelNow[] }) {
  const rows = channels.map((channel) => {
    const signals = heardOf(channel.id).value
    return { channel, signals, moves: isMoving(signals, channel.signalUnit) }
  })
  const moving = rows.filter(({ moves }) => moves).map(({ channel }) => `${channel.board} ${channel.channel}`)
  return (
    <section class="which">
      <h2>Which is which?</h2>
      <p>
        Shake one, cover its light sensor, breathe on its thermometer: the one that moves is marked. It takes
        a few of its samples to show.
      </p>
      <p class="which-answer" role="status" aria-live="polite">
        {moving.length === 0 ? 'Nothing moves.' : `This one moves: ${moving.join(', ')}`}
      </p>
      <details open={channels.length <= OPEN_UP_TO}>
        <summary>{countText(channels.length, 'channel')} without a place</summary>
        <ul class="which-list">
          {rows.map(({ channel, signals, moves }) => (
            <li
              key={channel.id}
              class={moves ? 'is-moving' : ''}
              data-which={`${channel.board}/${channel.channel}`}
              data-moves={moves ? 'yes' : 'no'}
            >
              <span class="which-name">
                <b>{channel.board}</b> {channel.channel}
              </span>
              <span class="figures which-value">
                {channel.latest ? signalText(channel.latest[3], channel.signalUnit) : '–'}
              </span>
              <MinuteTrace signals={signals} />
              <strong class="which-moves">{moves ? '◀ this one moves' : ''}</strong>
            </li>
          ))}
        </ul>
      </details>
    </section>
  )
}
