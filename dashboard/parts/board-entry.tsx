import { useState } from 'preact/hooks'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { BoardNow } from '../../hub/contract/status.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { countText } from '../format.ts'
import { ageText } from '../format-time.ts'
import { AskBoard } from './ask-board.tsx'
import { BoardColumns } from './board-columns.tsx'
import { BoardKey } from './board-key.tsx'
import { ChannelLine } from './channel-line.tsx'
import { LateMark, StandingMark } from './marks.tsx'

/** One board: how it is heard, what troubles it, and each of its channels. */
export function BoardEntry(props: {
  board: BoardNow
  channels: readonly ChannelNow[]
  survey: SurveyFile | null
  nowMs: number
  isOpen: boolean
  onToggle: (isOpen: boolean) => void
  onSaid: (said: string) => void
}) {
  const { board, channels, survey, nowMs, onSaid } = props
  const [open, setOpen] = useState<number | null>(null)
  const newest = channels.reduce((latest, channel) => Math.max(latest, channel.latest?.[2] ?? 0), 0)
  const heardMs = Math.max(board.lastHeardMs ?? 0, newest) || null
  const interval = survey?.boards.find((setting) => setting.name === board.name)?.sampleIntervalSeconds
  const isSilent = heardMs === null || nowMs - heardMs > 3000 * (interval ?? 60)
  const places = [...new Set(channels.flatMap((channel) => channel.quadrat ?? []))]
  return (
    <details
      class={`board${board.isWaiting ? ' waiting' : ''}`}
      data-board={board.name}
      open={props.isOpen}
      onToggle={(event) => props.onToggle(event.currentTarget.open)}
    >
      <summary>
        <h3>{board.name}</h3>
        <span class="board-state">
          {board.link === 'lost' ? (
            <span class="tag tag-fail">
              <StandingMark standing="fail" />
              link lost
            </span>
          ) : isSilent ? (
            <span class="tag tag-late">
              <LateMark />
              {heardMs === null ? 'never heard' : 'silent'}
            </span>
          ) : (
            <span class="tag tag-good">
              <StandingMark standing="clean" />
              talking
            </span>
          )}
          <span>heard {ageText(heardMs, nowMs)}</span>
          {board.source && <span>{sourceText(board.source)}</span>}
          <span>{countText(board.messages, 'message')}</span>
          {board.missed > 0 && <b>{countText(board.missed, 'message')} missed</b>}
          {places.length > 0 && <span>at {places.join(', ')}</span>}
        </span>
      </summary>
      <div class="board-notes">
        {board.about && <p class="about">It says: “{board.about}”</p>}
        {board.trouble && (
          <p class="tag-fail" role="status">
            {board.trouble}
          </p>
        )}
      </div>
      <BoardKey board={board} />
      {channels.length === 0 ? (
        <p class="faint">
          Nothing has been heard from it yet. Check its power, its cable or Wi-Fi, and its name.
        </p>
      ) : (
        <ul class="channel-lines">
          {channels.map((channel) => (
            <ChannelLine
              key={channel.id}
              channel={channel}
              survey={survey}
              nowMs={nowMs}
              isOpen={open === channel.id}
              onOpen={(isOpen) => setOpen(isOpen ? channel.id : null)}
              onSaid={onSaid}
            />
          ))}
        </ul>
      )}
      <BoardColumns {...{ board, channels, survey, onSaid }} />
      {board.source && <AskBoard board={board.name} onSaid={onSaid} />}
    </details>
  )
}

function sourceText(source: string): string {
  if (source.startsWith('mqtt:')) return 'by MQTT'
  if (source.startsWith('serial:')) return `by cable on ${source.slice('serial:'.length)}`
  return `by ${source}`
}
