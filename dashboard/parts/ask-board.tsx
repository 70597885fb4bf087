import { useState } from 'preact/hooks'
import { client, messageOf } from '../client.ts'

/** Asks a board who it is, or to measure every so many seconds. */
export function AskBoard({ board, onSaid }: { board: string; onSaid: (said: string) => void }) {
  const [seconds, setSeconds] = useState('10')
  const ask = async (words: string, said: string) => {
    try {
      await client.ask(board, words)
      onSaid(said)
    } catch (error) {
      onSaid(messageOf(error))
    }
  }
  const isNumber = /^\d+(\.\d+)?$/.test(seconds.trim())
  return (
    <div class="ask">
      <button type="button" class="plain" onClick={() => void ask('who', `${board} was asked who it is.`)}>
        Ask who it is
      </button>
      <label>
        measure every
        <input
          inputMode="decimal"
          value={seconds}
          onInput={(event) => setSeconds(event.currentTarget.value)}
          aria-label={`Seconds between measurements of ${board}`}
        />
        s
      </label>
      <button
        type="button"
        class="plain"
        disabled={!isNumber}
        onClick={() =>
          void ask(`every ${seconds.trim()}`, `${board} was asked to measure every ${seconds.trim()} s.`)
        }
      >
        Ask
      </button>
    </div>
  )
}
