import { type StreamEvent, streamEvents } from '../hub/contract/stream-events.ts'

/** One event of the hub's stream, its body still as text. */
export interface Told {
  name: StreamEvent
  text: string
  /** id of the last message whose readings were sent; null for events that carry no readings */
  cursor: number | null
}

export interface LineHeard {
  /** the hub gave a sign of life */
  alive(): void
  lost(): void
  told(told: Told): void
}

export interface Line {
  close(): void
}

/** The hub gives a sign of life every 10 s; after this long without one the line is dead, whatever the browser thinks. */
const SILENCE_MS = 25_000
const AGAIN_MS = 1_500

/** Listens to the hub from a cursor on. The browser resumes by itself; a line given up by it is opened anew here. */
export function openLine(since: number, heard: LineHeard): Line {
  let source: EventSource | null = null
  let cursor = since
  let watchdog: ReturnType<typeof setTimeout> | undefined
  let again: ReturnType<typeof setTimeout> | undefined

  const alive = () => {
    clearTimeout(watchdog)
    watchdog = setTimeout(() => {
      heard.lost()
      open()
    }, SILENCE_MS)
    heard.alive()
  }
  const open = () => {
    source?.close()
    const line = new EventSource(`/api/stream?since=${cursor}`)
    source = line
    line.onopen = alive
    line.onerror = () => {
      heard.lost()
      if (line.readyState === EventSource.CLOSED && line === source) again = setTimeout(open, AGAIN_MS)
    }
    for (const name of streamEvents)
      line.addEventListener(name, ({ data, lastEventId }: MessageEvent<string>) => {
        const isNew = name === 'readings' || name === 'resync'
        if (isNew) cursor = Number(lastEventId) || cursor
        alive()
        heard.told({ name, text: data, cursor: isNew ? cursor : null })
      })
  }
  open()
  return {
    close() {
      clearTimeout(watchdog)
      clearTimeout(again)
      source?.close()
      source = null
    },
  }
}
