import type { Chance } from './field-day-chance.ts'
import { type BoardsPlan, isWithin } from './field-day-plan.ts'
import {
  BEGINS_MS,
  ENDS_MS,
  METER_INTERVAL_SECONDS,
  PEG_INTERVAL_SECONDS,
  QUADRATS,
} from './field-day-survey.ts'

const MINUTE_MS = 60_000
/** boards are switched on in the bag, before anything stands */
const ON_BEFORE_MS = 5 * MINUTE_MS

/** A message of a board: what is true about it, and every time it reached the hub. */
export interface DayMessage {
  board: string
  startup: number
  number: number
  takenMs: number
  /** by how much the board’s clock was behind then, ms; null: it has none and counts back from sending */
  slowMs: number | null
  signals: readonly { channel: string; unit: string; signal: number }[]
  /** first the one that is stored, then repeats; none: it was lost for good */
  arrivals: { sentMs: number; arrivedMs: number }[]
}

/** Everything the boards took in the day, and how it came to the hub. */
export function messagesOf(
  plan: BoardsPlan,
  chance: Chance,
  millivoltAt: (ms: number) => number,
): DayMessage[] {
  const pegs = [...QUADRATS.map((_, index) => `peg-${index + 1}`), 'peg-deep']
  return [
    ...pegs.flatMap((board, index) =>
      boardMessages(board, PEG_INTERVAL_SECONDS * 1000, plan, chance, (takenMs) => [
        {
          channel: 'temperature',
          unit: 'Cel',
          signal: sixteenths(11 + index / 4 + slowly(takenMs) + 0.1 * chance.share()),
        },
      ]),
    ),
    ...boardMessages('satchel', METER_INTERVAL_SECONDS * 1000, plan, chance, (takenMs) => [
      {
        channel: 'ph',
        unit: 'mV',
        signal: Math.round(100 * (millivoltAt(takenMs) + 0.4 * chance.share())) / 100,
      },
      {
        channel: 'temperature',
        unit: 'Cel',
        signal: sixteenths(14 + slowly(takenMs) + 0.1 * chance.share()),
      },
    ]),
  ]
}

function boardMessages(
  board: string,
  intervalMs: number,
  plan: BoardsPlan,
  chance: Chance,
  signalsAt: (takenMs: number) => DayMessage['signals'],
): DayMessage[] {
  const messages: DayMessage[] = []
  const losesNumber = board === plan.losesOne ? 7 * chance.whole(10, 120) + 3 : null
  let startup = chance.whole(1, 1_000_000)
  let number = 0
  let takenMs = BEGINS_MS - ON_BEFORE_MS + chance.whole(2000, 8000)
  let freeMs = 0
  const restarts = plan.restarts.filter((each) => each.board === board)
  // what is taken in the last second would not come in time
  for (; takenMs < ENDS_MS - 1000; takenMs += intervalMs) {
    if (plan.silences.some((each) => each.board === board && isWithin(each, takenMs))) continue
    const restart = restarts[0]
    if (restart && takenMs >= restart.fromMs) {
      restarts.shift()
      startup += chance.whole(1, 9)
      number = 0
      takenMs = restart.toMs
    }
    number++
    const sentMs = Math.max(whenLinked(board, takenMs, plan), freeMs)
    freeMs = sentMs + 100
    const arrivals = number === losesNumber ? [] : [arriving(sentMs, chance)]
    // its receipt did not come, or came so late that the board had it in its memory still
    if (number % 7 === 0) {
      const againMs = sentMs + (chance.share() < 0.5 ? 2000 : chance.whole(5, 50) * MINUTE_MS)
      arrivals.push(arriving(whenLinked(board, againMs, plan) + 3000, chance))
    }
    const slowMs =
      board === plan.slowClock.board && isWithin(plan.slowClock, takenMs) ? plan.slowClock.slowMs : 0
    messages.push({
      board,
      startup,
      number,
      takenMs,
      slowMs: board === plan.clockless ? null : slowMs,
      signals: signalsAt(takenMs),
      arrivals: arrivals.filter(({ arrivedMs }) => arrivedMs <= ENDS_MS),
    })
  }
  return messages
}

function whenLinked(board: string, ms: number, { lostLink }: BoardsPlan): number {
  return lostLink.boards.includes(board) && isWithin(lostLink, ms) ? lostLink.toMs : ms
}

function arriving(sentMs: number, chance: Chance): DayMessage['arrivals'][number] {
  return { sentMs, arrivedMs: sentMs + chance.whole(20, 90) }
}

/** Warmer by two degrees in the day, °C. */
function slowly(ms: number): number {
  return (2 * (ms - BEGINS_MS)) / (ENDS_MS - BEGINS_MS)
}

/** A digital thermometer tells sixteenths of a degree. */
function sixteenths(celsius: number): number {
  return Math.round(celsius * 16) / 16
}

/** The pack a board sends: RFC 8428, with Unix time, or seconds before sending where it has no clock. */
export function packOf(message: DayMessage, sentMs: number): unknown[] {
  const { board, startup, number, takenMs, slowMs, signals } = message
  const seconds = slowMs === null ? (takenMs - sentMs) / 1000 : (takenMs - slowMs) / 1000
  return [
    { bn: `${board}/`, n: 'startup', v: startup },
    { n: 'message', v: number },
    ...signals.map(({ channel, unit, signal }) => ({ n: channel, u: unit, v: signal, t: seconds })),
  ]
}
