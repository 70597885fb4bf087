import type { DepartureItem } from '../../contract/field.ts'
import { SILENT_AFTER_INTERVALS } from './silent-boards.ts'

/** What is known of a board before it goes out. */
export interface BoardFacts {
  board: string
  lastHeardMs: number | null
  intervalSeconds: number | undefined
  /** received and missed in its present start-up */
  messages: number
  missed: number
  trouble: string | null
  /** newest reading of a channel named for it; `V`, `mV` or `%` */
  battery: { signal: number; unit: string } | null
  /** how far its clock is ahead of the hub’s, seconds; null: it has none, and the hub’s is used */
  clockAheadSeconds: number | null
  hasImpossibleClock: boolean
}

const HEARD_WITHIN_MS = 60_000
/** Common practice, no source: light is paired in time to the second or so, soil temperature to the minute. */
const CLOCK_LOOK_SECONDS = 2
const CLOCK_FAIL_SECONDS = 60
const LOSS_FAILS = 0.1
/** Of one lithium cell, V: nearly flat, and low. A supply of 5 V sags below 4.6 V. Common practice, no source. */
const CELL = { below: 4.3, fail: 3.3, look: 3.6 }
const SUPPLY = { below: 5.6, fail: 4.3, look: 4.6 }

/** One item for how a board is heard, one for its clock, one for its battery if it tells of one. */
export function boardItems(facts: BoardFacts, nowMs: number): DepartureItem[] {
  return [heardItem(facts, nowMs), ...clockItem(facts), ...batteryItem(facts)]
}

function heardItem(facts: BoardFacts, nowMs: number): DepartureItem {
  const { board, lastHeardMs, messages, missed, trouble } = facts
  const withinMs = Math.max(HEARD_WITHIN_MS, SILENT_AFTER_INTERVALS * 1000 * (facts.intervalSeconds ?? 0))
  const item = { about: 'boards', title: board, to: { page: 'boards', probe: null } } as const
  if (lastHeardMs === null)
    return {
      ...item,
      state: 'fail',
      words: 'Never heard.',
      remedy: 'Switch it on; check its cable or Wi-Fi, and its name.',
    }
  const seconds = Math.max(0, Math.round((nowMs - lastHeardMs) / 1000))
  if (nowMs - lastHeardMs > withinMs)
    return {
      ...item,
      state: 'fail',
      words: `Last heard ${seconds < 120 ? `${seconds} s` : `${Math.round(seconds / 60)} min`} ago.`,
      remedy: 'Press reset; check its battery, its cable or Wi-Fi.',
    }
  if (trouble !== null)
    return { ...item, state: 'fail', words: trouble, remedy: 'Give one of them another name.' }
  const share = missed / Math.max(1, messages + missed)
  const words = `Heard ${seconds} s ago; ${missed === 0 ? 'no message missed' : `${missed} of ${messages + missed} messages missed (${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %)`}.`
  return missed === 0
    ? { ...item, state: 'ok', words, remedy: null }
    : {
        ...item,
        state: share >= LOSS_FAILS ? 'fail' : 'look',
        words,
        remedy: 'Bring it nearer, turn its aerial, or use a cable; then press reset and watch again.',
      }
}

function clockItem({
  board,
  clockAheadSeconds,
  hasImpossibleClock,
  lastHeardMs,
}: BoardFacts): DepartureItem[] {
  if (lastHeardMs === null) return []
  const item = { about: 'clocks', title: board, to: { page: 'clocks', probe: null } } as const
  if (hasImpossibleClock)
    return [
      {
        ...item,
        state: 'fail',
        words: 'It gave impossible times, so the hub’s were taken in their place.',
        remedy: 'Set its clock: ask it for “time” on the page Boards, or fit a new cell.',
      },
    ]
  if (clockAheadSeconds === null)
    return [
      {
        ...item,
        state: 'ok',
        words: 'It has no clock of its own; times are reckoned from the hub’s.',
        remedy: null,
      },
    ]
  const off = Math.abs(clockAheadSeconds)
  const words = `Its clock is ${off < CLOCK_LOOK_SECONDS ? 'with the hub’s' : `${off < 120 ? `${Math.round(off)} s` : `${Math.round(off / 60)} min`} ${clockAheadSeconds > 0 ? 'ahead of' : 'behind'} the hub’s`}.`
  const state = off >= CLOCK_FAIL_SECONDS ? 'fail' : off >= CLOCK_LOOK_SECONDS ? 'look' : 'ok'
  return [
    {
      ...item,
      state,
      words,
      remedy: state === 'ok' ? null : 'Ask it for “time” on the page Boards: the hub tells it.',
    },
  ]
}

function batteryItem({ board, battery }: BoardFacts): DepartureItem[] {
  if (battery === null) return []
  const item = { about: 'boards', title: `${board}, battery`, to: { page: 'boards', probe: null } } as const
  const { signal, unit } = battery
  if (unit === '%' || unit === '/' || unit === '%EL') {
    const share = unit === '/' ? signal : signal / 100
    const state = share < 0.15 ? 'fail' : share < 0.4 ? 'look' : 'ok'
    return [
      {
        ...item,
        state,
        words: `${Math.round(share * 100)} % left.`,
        remedy: state === 'ok' ? null : 'Charge it, or take a spare.',
      },
    ]
  }
  const volt = unit === 'mV' ? signal / 1000 : signal
  const limits = volt < CELL.below ? CELL : volt < SUPPLY.below ? SUPPLY : null
  const state = limits === null ? 'ok' : volt < limits.fail ? 'fail' : volt < limits.look ? 'look' : 'ok'
  return [
    {
      ...item,
      state,
      words: `${volt.toFixed(2)} V.`,
      remedy: state === 'ok' ? null : 'Charge it, or take a spare.',
    },
  ]
}
