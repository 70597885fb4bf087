import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { BoardNow } from '../../hub/contract/status.ts'
import { client, messageOf } from '../client.ts'
import { refreshAll } from '../notebook.ts'
import './board-key.css'

/** A board's key for the hub's broker: made here, shown once, as text to type or copy into the board's settings. */
export function BoardKey({ board }: { board: BoardNow }) {
  const [key, setKey] = useState<string | null>(null)
  const [trouble, setTrouble] = useState('')
  const [Code, setCode] = useState<ComponentType<{ address: string }> | null>(null)
  useEffect(() => {
    if (key !== null)
      // drawn only where a key was made: the first page does without
      import('../plan/print/qr-code.tsx').then(({ QrCode }) => setCode(() => QrCode)).catch(() => undefined)
  }, [key])
  const run = async (work: () => Promise<string | null>) => {
    setTrouble('')
    try {
      setKey(await work())
    } catch (error) {
      setTrouble(messageOf(error))
    }
    refreshAll()
  }
  const make = () => run(async () => (await client.makeBoardKey(board.name)).key)
  const remove = () =>
    run(async () => {
      await client.removeBoardKey(board.name)
      return null
    })
  return (
    <div class="board-key">
      <p class="faint">
        {board.hasKey
          ? 'It has a key: over Wi-Fi nobody else can send readings under its name.'
          : 'It has no key. With one, nobody else can send readings under its name over Wi-Fi.'}
      </p>
      {key !== null && (
        <div role="status">
          <p>
            Key of {board.name}: <b class="figures">{key}</b>. It is shown this once: put it into the board’s
            settings, with <b>{board.name}</b> as the user name.
          </p>
          {Code && (
            <div class="key-code">
              <Code address={`${board.name} ${key}`} />
            </div>
          )}
        </div>
      )}
      {trouble && <p role="alert">{trouble}</p>}
      <p class="form-ways">
        <button type="button" class="plain" onClick={() => void make()}>
          {board.hasKey ? 'Make a new key' : 'Make a key'}
        </button>
        {board.hasKey && (
          <button type="button" class="plain" onClick={() => void remove()}>
            Remove its key
          </button>
        )}
      </p>
    </div>
  )
}
