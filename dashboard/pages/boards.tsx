import { useEffect, useState } from 'preact/hooks'
import { client, messageOf } from '../client.ts'
import { currentSurvey } from '../current-survey.ts'
import { unplacedChannels, WhichIsWhich } from '../field/which-is-which.tsx'
import { countText } from '../format.ts'
import { hubMs } from '../hub-clock.ts'
import { boards, channelList, hub, ports, readAllSurveys, refreshAll } from '../notebook.ts'
import { BoardEntry } from '../parts/board-entry.tsx'
import { BrokerNote } from '../parts/broker-note.tsx'
import { SerialPorts } from '../parts/serial-ports.tsx'
import { pathTo } from '../router.ts'

/** Who is talking, and which probe stands where. Boards nobody has placed yet come first. */
export function BoardsPage() {
  const [said, setSaid] = useState('')
  /** boards opened or shut by hand; the others are open while they want something */
  const [opened, setOpened] = useState<ReadonlyMap<string, boolean>>(new Map())
  const survey = currentSurvey.value
  const surveyCount = hub.value?.surveys.length ?? 0
  useEffect(readAllSurveys, [surveyCount])
  const nowMs = hubMs.value
  const all = boards.value ?? []
  const waiting = all.filter((board) => board.isWaiting)
  const others = all.filter((board) => !board.isWaiting)
  const unplaced = unplacedChannels(channelList.value, [survey])
  const undo = async () => {
    if (!survey) return
    try {
      const { undone } = await client.undo(survey.id)
      setSaid(`Taken back: ${undone}. Taking back again brings it back.`)
    } catch (error) {
      setSaid(messageOf(error))
    }
    refreshAll()
  }
  const entry = (board: (typeof all)[number]) => (
    <BoardEntry
      key={board.name}
      board={board}
      channels={channelList.value.filter((channel) => channel.board === board.name)}
      survey={survey}
      nowMs={nowMs}
      isOpen={opened.get(board.name) ?? (board.isWaiting || board.trouble !== null)}
      onToggle={(isOpen) => setOpened((before) => new Map(before).set(board.name, isOpen))}
      onSaid={(text) => {
        setSaid(text)
        setOpened((before) => new Map(before).set(board.name, true))
      }}
    />
  )
  return (
    <article class="ledger">
      <div class="page-head">
        <div>
          <h1>Boards</h1>
          <p>
            {all.length === 0
              ? 'No board has been heard yet.'
              : `${countText(all.length, 'board')}${placesText(waiting.length, unplaced.length)}.`}
          </p>
        </div>
        {survey && (
          <button type="button" class="plain" onClick={() => void undo()}>
            Take back the last change
          </button>
        )}
      </div>
      <p class="said" role="status" aria-live="polite">
        {said}
      </p>
      {!survey && all.length > 0 && (
        <p class="hint">
          {surveyCount > 1 ? (
            <>
              Several surveys are kept here. <a href={pathTo.home}>Open the one</a> the boards belong to, then
              come back.
            </>
          ) : (
            <>
              To put probes in place, <a href={pathTo.setUp}>set up a survey</a> first. Readings are kept
              meanwhile.
            </>
          )}
        </p>
      )}
      {unplaced.length > 0 && <WhichIsWhich channels={unplaced} />}
      {waiting.length > 0 && (
        <section>
          <h2>Waiting for a place</h2>
          <p>Their readings are kept from the first one on; say where each probe stands, and they follow.</p>
          {waiting.map(entry)}
        </section>
      )}
      {others.length > 0 && (
        <section>
          <h2 class={waiting.length > 0 ? '' : 'unseen'}>In place</h2>
          {others.map(entry)}
        </section>
      )}
      <div class="ways-in">
        <SerialPorts ports={ports.value} nowMs={nowMs} onSaid={setSaid} />
        {hub.value && <BrokerNote broker={hub.value.broker} />}
      </div>
    </article>
  )
}

function placesText(waiting: number, unplaced: number): string {
  if (waiting > 0) return `, ${waiting} waiting for a place`
  return unplaced > 0 ? `, ${countText(unplaced, 'channel')} without a place` : ', all with a place'
}
