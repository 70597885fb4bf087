import type { DayMessage } from './field-day-class.ts'
import type { DayEvents, Stay } from './field-day-events.ts'
import { ENDS_MS, PEG_INTERVAL_SECONDS, QUADRATS, WANTED } from './field-day-survey.ts'

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

/** Every cell of the day, in the order of quadrats and of what is wanted. */
export function trueMatrix(day: DayEvents): TrueCell[] {
  const cells: TrueCell[] = []
  for (const quadrat of QUADRATS)
    for (const wanted of WANTED) {
      const cell = `${quadrat} ${wanted.quantity} ${JSON.stringify(wanted.method)}`
      if (wanted.by === 'standing') {
        const isDeep = wanted.method.depthCentimetres === 20
        const isWanted = 'quadrats' in wanted ? wanted.quadrats.some((label) => label === quadrat) : true
        const stays = day.stays.filter(
          (stay) => stay.quadrat === quadrat && (stay.probe === 'TEMP-deep') === isDeep,
        )
        cells.push({ cell, ...trueStandingCell(day, stays, isWanted, wanted.minutes) })
      } else {
        const taken = wanted.quantity === 'soil_ph' ? heldAt(day, quadrat) : typedAt(day, quadrat)
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

/** Messages that were taken and never came, by board. */
export function trulyLost(day: DayEvents): Map<string, number> {
  const lost = new Map<string, number>()
  for (const { board, arrivals } of day.messages)
    if (arrivals.length === 0) lost.set(board, (lost.get(board) ?? 0) + 1)
  return lost
}

function trueStandingCell(
  day: DayEvents,
  stays: readonly Stay[],
  isWanted: boolean,
  minutes: number,
): Omit<TrueCell, 'cell'> {
  const standing = stays.map((stay) => trueStanding(stay, day.messages))
  let got = 0
  let isEnough = true
  let lastMs: number | null = null
  const missing: string[] = []
  for (const [index, each] of standing.entries()) {
    if (each.received > 0) got++
    if (each.received < ENOUGH * each.expected) isEnough = false
    if (each.isThere && !each.isLogging) missing.push(`board ${stays[index]!.board}`)
    if (each.isThere) lastMs = newestOf(stays[index]!, day.messages)
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
function trueStanding(stay: Stay, messages: readonly DayMessage[]): TrueStanding {
  const endMs = stay.toMs ?? ENDS_MS
  let received = 0
  let heardMs = stay.fromMs
  const gaps: TrueStanding['gaps'] = []
  for (const { board, takenMs, arrivals } of messages) {
    if (board !== stay.board || arrivals.length === 0 || takenMs < stay.fromMs || takenMs >= endMs) continue
    received++
    if (takenMs - heardMs > LONGEST_PAUSE_MS) gaps.push({ fromMs: heardMs, toMs: takenMs })
    heardMs = takenMs
  }
  if (endMs - heardMs > LONGEST_PAUSE_MS) gaps.push({ fromMs: heardMs, toMs: endMs })
  let expected = 0
  for (let ms = stay.fromMs + PEG_INTERVAL_SECONDS * 1000; ms <= endMs; ms += PEG_INTERVAL_SECONDS * 1000)
    expected++
  const isThere = stay.toMs === null
  let lastHeardMs = 0
  for (const { board, arrivals } of messages)
    if (board === stay.board)
      for (const { arrivedMs } of arrivals) lastHeardMs = Math.max(lastHeardMs, arrivedMs)
  const isLogging = isThere && ENDS_MS - lastHeardMs <= SILENT_AFTER_MS
  return { probe: stay.probe, received, expected, gaps, isThere, isLogging }
}

function newestOf(stay: Stay, messages: readonly DayMessage[]): number | null {
  let newestMs: number | null = null
  for (const { board, takenMs, arrivals } of messages)
    if (board === stay.board && arrivals.length > 0 && takenMs >= stay.fromMs) newestMs = takenMs
  return newestMs
}

interface TrueReplicates {
  replicates: number
  lastMs: number | null
}

/** Insertions that were held until they were steady, in captures that nobody took back. */
function heldAt({ held }: DayEvents, quadrat: string): TrueReplicates {
  let replicates = 0
  let lastMs: number | null = null
  for (const capture of held) {
    if (capture.quadrat !== quadrat || capture.takenBackMs !== null) continue
    for (const { isSteady } of capture.held) if (isSteady) replicates++
    lastMs = capture.held[0]!.fromMs
  }
  return { replicates, lastMs }
}

function typedAt({ typed }: DayEvents, quadrat: string): TrueReplicates {
  let replicates = 0
  let lastMs: number | null = null
  for (const capture of typed)
    if (capture.quadrat === quadrat && capture.sentMs < ENDS_MS) {
      replicates++
      lastMs = capture.typedMs
    }
  return { replicates, lastMs }
}
