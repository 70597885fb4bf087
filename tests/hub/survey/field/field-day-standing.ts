import type { DayMessage } from './field-day-class.ts'
import type { Stay } from './field-day-events.ts'
import { PEG_INTERVAL_SECONDS } from './field-day-survey.ts'

/** A pause of more than two and a half intervals is a gap. Common practice, no source. */
const LONGEST_PAUSE_MS = 2.5 * PEG_INTERVAL_SECONDS * 1000
/** A board that was not heard for three of its intervals is silent. Common practice, no source. */
const SILENT_AFTER_MS = 3 * PEG_INTERVAL_SECONDS * 1000

/** What is true of one probe that stood at a quadrat. */
export interface TrueStanding {
  probe: string
  received: number
  expected: number
  gaps: { fromMs: number; toMs: number }[]
  isThere: boolean
  isLogging: boolean
}

/** Walks along the stay, from one reading that came to the next. */
export function trueStanding(stay: Stay, messages: readonly DayMessage[], nowMs: number): TrueStanding {
  const isThere = stay.toMs === null || stay.toMs > nowMs
  const endMs = isThere ? nowMs : stay.toMs!
  const gaps: TrueStanding['gaps'] = []
  let received = 0
  let beforeMs = stay.fromMs
  let lastHeardMs = 0
  for (const message of messages) {
    if (message.board !== stay.board) continue
    for (const { arrivedMs } of message.arrivals)
      if (arrivedMs <= nowMs) lastHeardMs = Math.max(lastHeardMs, arrivedMs)
    const { takenMs } = message
    if (!hasCome(message, nowMs) || takenMs < stay.fromMs || takenMs >= endMs) continue
    received++
    if (takenMs - beforeMs > LONGEST_PAUSE_MS) gaps.push({ fromMs: beforeMs, toMs: takenMs })
    beforeMs = takenMs
  }
  if (endMs - beforeMs > LONGEST_PAUSE_MS) gaps.push({ fromMs: beforeMs, toMs: endMs })
  let expected = 0
  for (let ms = stay.fromMs + PEG_INTERVAL_SECONDS * 1000; ms <= endMs; ms += PEG_INTERVAL_SECONDS * 1000)
    expected++
  const isLogging = isThere && nowMs - lastHeardMs <= SILENT_AFTER_MS
  return { probe: stay.probe, received, expected, gaps, isThere, isLogging }
}

/** When the newest reading of a stay was taken, of those that have come. */
export function newestOf(stay: Stay, messages: readonly DayMessage[], nowMs: number): number | null {
  let newestMs: number | null = null
  for (const message of messages)
    if (message.board === stay.board && hasCome(message, nowMs) && message.takenMs >= stay.fromMs)
      newestMs = message.takenMs
  return newestMs
}

export function hasCome({ arrivals }: DayMessage, nowMs: number): boolean {
  return arrivals.length > 0 && arrivals[0]!.arrivedMs <= nowMs
}
