import { signal } from '@preact/signals'
import type { ReadingTuple } from '../hub/contract/reading.ts'
import type { StreamEvent, StreamReadings } from '../hub/contract/stream.ts'
import { hearClock } from './hub-clock.ts'

/** `joining` until the first answer, `lost` while the hub does not answer. */
export const connection = signal<'joining' | 'live' | 'lost'>('joining')

/** The hub gives a sign of life every 10 s; after this long without one the line is dead, whatever the browser thinks. */
const SILENCE_MS = 25_000
const AGAIN_MS = 1_500

const told = ['directory', 'surveys', 'spots', 'recomputed', 'resync', 'pulse'] as const

interface Heard {
  readings: (rows: ReadingTuple[]) => void
  told: (event: Exclude<StreamEvent, 'readings'>) => void
  /** the hub answers again after it was lost */
  back: () => void
}

/** Follows the hub from a cursor on. The browser resumes by itself; a line given up by it is opened anew here. */
export function follow(since: number, heard: Heard): void {
  let source: EventSource | null = null
  let cursor = since
  let watchdog: ReturnType<typeof setTimeout> | undefined

  const lose = () => {
    connection.value = 'lost'
  }
  const alive = () => {
    clearTimeout(watchdog)
    watchdog = setTimeout(() => {
      lose()
      open()
    }, SILENCE_MS)
    if (connection.value === 'live') return
    const wasLost = connection.value === 'lost'
    connection.value = 'live'
    if (wasLost) heard.back()
  }
  const open = () => {
    source?.close()
    const line = new EventSource(`/api/stream?since=${cursor}`)
    source = line
    line.onopen = alive
    line.onerror = () => {
      lose()
      if (line.readyState === EventSource.CLOSED && line === source)
        setTimeout(() => {
          if (line === source) open()
        }, AGAIN_MS)
    }
    line.addEventListener('readings', (event) => {
      const { nowMs, rows } = JSON.parse(event.data) as StreamReadings
      cursor = Number(event.lastEventId) || cursor
      hearClock(nowMs)
      alive()
      heard.readings(rows)
    })
    for (const name of told)
      line.addEventListener(name, (event) => {
        cursor = Number(event.lastEventId) || cursor
        hearClock((JSON.parse(event.data) as { nowMs: number }).nowMs)
        alive()
        heard.told(name)
      })
  }
  // a browser holds six lines to one host: tabs out of sight give theirs back, and go on from where they were
  const pause = () => {
    clearTimeout(watchdog)
    source?.close()
    source = null
  }
  const resume = () => {
    if (!document.hidden && source === null) open()
  }
  document.addEventListener('visibilitychange', () => (document.hidden ? pause() : resume()))
  addEventListener('pagehide', pause)
  addEventListener('pageshow', resume)
  if (!document.hidden) open()
}
