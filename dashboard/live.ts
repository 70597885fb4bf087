import { signal } from '@preact/signals'
import type { ReadingTuple } from '../hub/contract/reading.ts'
import type { StreamNews, StreamReadings } from '../hub/contract/stream.ts'
import type { StreamEvent } from '../hub/contract/stream-events.ts'
import { hearClock } from './hub-clock.ts'
import { type Line, type LineHeard, openLine, type Told } from './live-line.ts'
import type { FromTab, ToTab } from './share-line.ts'

/** `joining` until the first answer, `lost` while the hub does not answer. */
export const connection = signal<'joining' | 'live' | 'lost'>('joining')

interface Heard {
  readings: (rows: ReadingTuple[]) => void
  /** `changes` as in {@link StreamNews} */
  told: (event: Exclude<StreamEvent, 'readings'>, changes: number) => void
  /** more was missed than can be told */
  behind: () => void
  /** the hub answers again after it was lost */
  back: () => void
}

interface TabHeard extends LineHeard {
  late(told: Told): void
  behind(): void
}

/** Follows the hub from a cursor on, on a line that all tabs share where the browser can. */
export function follow(since: number, heard: Heard): void {
  let line: Line | null = null
  let cursor = since
  const take = ({ name, text, cursor: reached }: Told, isLate: boolean) => {
    cursor = reached ?? cursor
    const { nowMs, ...body } = JSON.parse(text) as { nowMs: number }
    if (!isLate) hearClock(nowMs)
    if (name === 'readings') heard.readings((body as StreamReadings).rows)
    else heard.told(name, (body as Omit<StreamNews, 'nowMs'>).changes)
  }
  const join = joinerOf({
    alive() {
      const wasLost = connection.value === 'lost'
      connection.value = 'live'
      if (wasLost) heard.back()
    },
    lost() {
      connection.value = 'lost'
    },
    told: (told) => take(told, false),
    late: (told) => take(told, true),
    behind: () => heard.behind(),
  })
  // tabs out of sight give the line back, and go on from where they were
  const pause = () => {
    line?.close()
    line = null
  }
  const resume = () => {
    if (!document.hidden) line ??= join(cursor)
  }
  document.addEventListener('visibilitychange', () => (document.hidden ? pause() : resume()))
  addEventListener('pagehide', pause)
  addEventListener('pageshow', resume)
  resume()
}

/** How this browser gets a line: from the worker shared by its tabs, else one of its own. */
function joinerOf(heard: TabHeard): (since: number) => Line {
  if (typeof SharedWorker === 'undefined') return (since) => openLine(since, heard)
  let own: Line | null = null
  let joinedSince: number | null = null
  const worker = new SharedWorker(new URL('./live-worker.ts', import.meta.url), { type: 'module' })
  const say = (message: FromTab) => worker.port.postMessage(message)
  worker.port.onmessage = ({ data }: MessageEvent<ToTab>) => {
    // what was under way when this tab left
    if (joinedSince === null) return
    if (data.kind === 'told') data.isLate ? heard.late(data.told) : heard.told(data.told)
    else heard[data.kind]()
  }
  let isBroken = false
  worker.onerror = () => {
    isBroken = true
    if (joinedSince !== null) own ??= openLine(joinedSince, heard)
  }
  return (since) => {
    joinedSince = since
    if (isBroken) own = openLine(since, heard)
    else say({ kind: 'join', since })
    return {
      close() {
        joinedSince = null
        own?.close()
        own = null
        if (!isBroken) say({ kind: 'leave' })
      },
    }
  }
}
