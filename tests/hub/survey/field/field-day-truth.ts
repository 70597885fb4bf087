import type { DayMessage } from './field-day-class.ts'
import type { DayEvents, Stay } from './field-day-events.ts'
import { PEG_INTERVAL_SECONDS, QUADRATS, WANTED } from './field-day-survey.ts'

/** With less than this share of its readings a cell is only partly there. Common practice, no source. */
const ENOUGH = 0.9
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

/** What is true of one quantity at one quadrat, counted from the events of the day. */
export interface TrueCell {
  cell: string
  state: 'complete' | 'partly' | 'missing' | 'not wanted'
  got: number
  needed: number
  minutes: number
  standing: TrueStanding[]
  missing: string[]
  lastMs: number | null
}

/** Every cell at a moment of the day, in the order of quadrats and of what is wanted; from what has come by then. */
export function trueMatrix(day: DayEvents, nowMs: number): TrueCell[] {
  const cells: TrueCell[] = []
  for (const quadrat of QUADRATS)
    for (const wanted of WANTED) {
      const cell = `${quadrat} ${wanted.quantity} ${JSON.stringify(wanted.method)}`
      if (wanted.by === 'standing') {
        const isDeep = wanted.method.depthCentimetres === 20
        const isWanted = 'quadrats' in wanted ? wanted.quadrats.some((label) => label === quadrat) : true
        const stays = day.stays.filter(
          (stay) =>
            stay.quadrat === quadrat && (stay.probe === 'TEMP-deep') === isDeep && stay.fromMs < nowMs,
        )
        cells.push({ cell, ...trueStandingCell(day, stays, isWanted, wanted.minutes, nowMs) })
      } else {
        const taken =
          wanted.quantity === 'soil_ph' ? heldAt(day, quadrat, nowMs) : typedAt(day, quadrat, nowMs)
        const lacking = Math.max(0, wanted.replicates - taken.replicates)
        cells.push({
          cell,
          state: taken.replicates === 0 ? 'missing' : lacking > 0 ? 'partly' : 'complete',
          got: taken.replicates,
          needed: wanted.replicates,
          minutes: (wanted.minutes / wanted.replicates) * lacking,
          standing: [],
          missing: lacking > 0 ? [`measure ${lacking}`] : [],
          lastMs: taken.lastMs,
        })
      }
    }
  return cells
}

function trueStandingCell(
  day: DayEvents,
  stays: readonly Stay[],
  isWanted: boolean,
  minutes: number,
  nowMs: number,
): Omit<TrueCell, 'cell'> {
  const standing = stays.map((stay) => trueStanding(stay, day.messages, nowMs))
  let got = 0
  let isEnough = true
  let lastMs: number | null = null
  const missing: string[] = []
  for (const [index, each] of standing.entries()) {
    if (each.received > 0) got++
    if (each.received < ENOUGH * each.expected) isEnough = false
    if (each.isThere && !each.isLogging) missing.push(`board ${stays[index]!.board}`)
    if (each.isThere) lastMs = newestOf(stays[index]!, day.messages, nowMs)
  }
  if (stays.length === 0 && isWanted) missing.push('probe')
  const isComplete = missing.length === 0 && isEnough
  return {
    state: !isWanted ? 'not wanted' : got === 0 ? 'missing' : isComplete ? 'complete' : 'partly',
    got,
    needed: 1,
    minutes: missing.length > 0 ? minutes : 0,
    standing,
    missing,
    lastMs,
  }
}

/** Walks along the stay, from one reading that came to the next. */
function trueStanding(stay: Stay, messages: readonly DayMessage[], nowMs: number): TrueStanding {
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

function newestOf(stay: Stay, messages: readonly DayMessage[], nowMs: number): number | null {
  let newestMs: number | null = null
  for (const message of messages)
    if (message.board === stay.board && hasCome(message, nowMs) && message.takenMs >= stay.fromMs)
      newestMs = message.takenMs
  return newestMs
}

function hasCome({ arrivals }: DayMessage, nowMs: number): boolean {
  return arrivals.length > 0 && arrivals[0]!.arrivedMs <= nowMs
}

interface TrueReplicates {
  replicates: number
  lastMs: number | null
}

/** Insertions that were held until they were steady, and came, in captures that nobody took back. */
function heldAt({ held, messages }: DayEvents, quadrat: string, nowMs: number): TrueReplicates {
  let replicates = 0
  let lastMs: number | null = null
  for (const capture of held) {
    if (capture.quadrat !== quadrat || capture.sentMs > nowMs) continue
    if (capture.takenBackMs !== null && capture.takenBackMs <= nowMs) continue
    for (const { fromMs, toMs, isSteady } of capture.held) {
      let readings = 0
      for (const message of messages)
        if (message.board === 'satchel' && message.takenMs >= fromMs && message.takenMs < toMs)
          if (hasCome(message, nowMs)) readings++
      if (!isSteady || readings === 0) continue
      replicates++
      lastMs = capture.held[0]!.fromMs
    }
  }
  return { replicates, lastMs }
}

function typedAt({ typed }: DayEvents, quadrat: string, nowMs: number): TrueReplicates {
  let replicates = 0
  let lastMs: number | null = null
  for (const capture of typed)
    if (capture.quadrat === quadrat && capture.sentMs <= nowMs) {
      replicates++
      lastMs = capture.typedMs
    }
  return { replicates, lastMs }
}
