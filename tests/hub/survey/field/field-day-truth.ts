import type { DayEvents, Stay } from './field-day-events.ts'
import { hasCome, newestOf, type TrueStanding, trueStanding } from './field-day-standing.ts'
import { QUADRATS, WANTED } from './field-day-survey.ts'

/** With less than this share of its readings a cell is only partly there. Common practice, no source. */
const ENOUGH = 0.9
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
