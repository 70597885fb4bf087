import type { Clock } from '../clock.ts'
import type { BoardLink } from './board-link.ts'
import { UNKNOWN_WORDS } from './judge-requests.ts'
import { type Heard, instantMs, readHeard, type Transcript } from './transcript.ts'

/** Told ahead on purpose, so that obeying can be told from having been right before; not where a hub is listening. */
const AHEAD_SECONDS = 100

/**
 * Talks to a board and writes down what it does. The order: who; a message left unanswered until it comes again; kept
 * from then on; two intervals; the time; words nobody knows.
 * @param patienceMs how long each thing is waited for
 */
export async function converse(link: BoardLink, clock: Clock, patienceMs: number): Promise<Transcript> {
  const transcript: Transcript = { way: link.way, board: link.board, events: [] }
  let isKeeping = false
  let waiting: ReturnType<BoardLink['next']> | null = null

  function say(words: string): void {
    transcript.events.push({ kind: 'said', atMs: clock.nowMs(), words })
    link.say(words)
  }

  function keep({ startup, message }: Heard): void {
    if (link.way === 'serial' && startup !== undefined && message !== undefined)
      say(`kept ${startup} ${message}`)
  }

  /** Waits until something is heard that is as wished; null when that does not come. */
  async function hear(isIt: (heard: Heard) => boolean, forMs = patienceMs): Promise<Heard | null> {
    const untilMs = clock.nowMs() + forMs
    for (;;) {
      waiting ??= link.next()
      const event = await within(waiting, untilMs - clock.nowMs())
      if (event === null) return null
      waiting = null
      transcript.events.push(event)
      if (event.kind !== 'heard') continue
      const heard = readHeard(event)
      if (isKeeping && heard.signals.length > 0) keep(heard)
      if (isIt(heard)) return heard
    }
  }

  /** Waits for so many samples taken after this. */
  async function hearSamples(count: number): Promise<void> {
    const sinceMs = clock.nowMs()
    const seen = new Set<number>()
    await hear((heard) => {
      const [signal] = heard.signals
      if (signal && instantMs(heard, signal.seconds) > sinceMs) seen.add(heard.message ?? heard.atMs)
      return seen.size >= count
    })
  }

  // boards are reset when their port is opened: what is said before they listen is lost
  if (link.way === 'serial') await hear(() => false, 2500)
  say('who')
  await hear(({ about }) => about !== undefined)
  say('every 2')
  const first = await hear(({ signals }) => signals.length > 0)
  // a board that says nothing, or nothing that can be read: waiting for more of it shows no more
  if (!first) return transcript
  if (first.message !== undefined && link.way === 'serial') {
    await hear(({ startup, message }) => startup === first.startup && message === first.message)
    keep(first)
  }
  isKeeping = true
  await hearSamples(3)
  say('every 1')
  await hearSamples(5)
  const aheadSeconds = link.way === 'serial' ? AHEAD_SECONDS : 0
  say(`time ${(clock.nowMs() / 1000 + aheadSeconds).toFixed(3)}`)
  await hearSamples(2)
  if (aheadSeconds > 0) say(`time ${(clock.nowMs() / 1000).toFixed(3)}`)
  say(UNKNOWN_WORDS)
  if (link.way === 'serial') say(`${UNKNOWN_WORDS} ${'x'.repeat(300)}`)
  await hearSamples(2)
  return transcript
}

async function within<T>(promise: Promise<T>, ms: number): Promise<T | null> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<null>((resolve) => {
    timer = setTimeout(() => resolve(null), Math.max(0, ms))
  })
  try {
    return await Promise.race([promise, late])
  } finally {
    clearTimeout(timer)
  }
}
