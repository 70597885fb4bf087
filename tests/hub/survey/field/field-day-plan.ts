import type { Chance } from './field-day-chance.ts'
import { BEGINS_MS } from './field-day-survey.ts'

const MINUTE_MS = 60_000

export interface SpanMs {
  fromMs: number
  toMs: number
}

/** What befalls the boards in the day. */
export interface BoardsPlan {
  /** the link of these boards is lost, and what they took meanwhile comes afterwards, oldest first */
  lostLink: SpanMs & { boards: readonly string[] }
  /** nothing is taken */
  silences: readonly (SpanMs & { board: string })[]
  /** the board begins again, with another start-up number and messages from 1; nothing is taken while it starts */
  restarts: readonly (SpanMs & { board: string })[]
  slowClock: SpanMs & { board: string; slowMs: number }
  clockless: string
  losesOne: string
}

export function planBoards(chance: Chance): BoardsPlan {
  const minutes = (count: number) => BEGINS_MS + count * MINUTE_MS
  const lostFromMs = minutes(chance.whole(55, 70))
  const silentFromMs = minutes(chance.whole(40, 100))
  const restart = (board: string, minute: number) => {
    const fromMs = minutes(minute) + chance.whole(0, 59_999)
    return { board, fromMs, toMs: fromMs + chance.whole(12_000, 50_000) }
  }
  return {
    lostLink: {
      boards: ['peg-3', 'peg-4', 'satchel'],
      fromMs: lostFromMs,
      toMs: lostFromMs + 40 * MINUTE_MS,
    },
    silences: [
      { board: 'peg-2', fromMs: silentFromMs, toMs: silentFromMs + chance.whole(19, 30) * MINUTE_MS },
      // till the end: its battery is empty
      { board: 'peg-6', fromMs: minutes(chance.whole(150, 176)), toMs: Number.POSITIVE_INFINITY },
    ],
    restarts: [restart('peg-1', 80), restart('peg-7', 30), restart('peg-7', 130), restart('satchel', 8)],
    slowClock: { board: 'peg-8', fromMs: 0, toMs: minutes(90), slowMs: 60 * MINUTE_MS },
    clockless: 'peg-4',
    losesOne: 'peg-5',
  }
}

export function isWithin({ fromMs, toMs }: SpanMs, ms: number): boolean {
  return fromMs <= ms && ms < toMs
}
