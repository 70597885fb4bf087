import { setImmediate as nextTurn } from 'node:timers/promises'
import type { QuadratMove } from '../contract/readiness.ts'
import type { SurveyFile } from '../contract/survey.ts'
import { appraiseWith } from '../intake/appraise.ts'
import { isCleanReading } from '../quality/clean.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import { changedSpans, Timelines } from './timeline.ts'

const ROWS = 4000

interface Move {
  unit: string
  readings: number
  before: { n: number; sum: number }
  after: { n: number; sum: number }
  smallest: number | null
  largest: number | null
}

/**
 * What saving `changed` in place of its present revision would do to the values, quadrat by quadrat; nothing is stored.
 * Means are over the readings that would count as clean. A compensated probe is worked out with the temperatures as
 * they are stored now.
 */
export async function previewChange(
  reader: SqliteReader,
  present: Timelines,
  changed: SurveyFile,
): Promise<QuadratMove[]> {
  const after = new Timelines(
    [...present.surveys.filter((survey) => survey.id !== changed.id), changed],
    present.spots,
  )
  const appraise = appraiseWith(after)
  const moves = new Map<string, Move>()
  for (const { id, board, name, unit } of reader.channels())
    for (const span of changedSpans(present.of(board, name), after.of(board, name))) {
      let cursor = { fromMs: Math.max(span.fromMs, -8.64e15), fromId: 0 }
      for (;;) {
        const slice = reader.toAppraise().judged(id, cursor, Math.min(span.toMs, 8.64e15), ROWS)
        // of one slice only: the store may change before the next
        const companions = reader.toAppraise().companions(board).begin(slice)
        for (const row of slice) {
          const segment = after.at(board, name, row.t_ms)
          if (!segment?.quadrat) continue
          const worth = appraise(
            board,
            { channel: name, unit, timeMs: row.t_ms, signal: row.signal },
            {
              timeOrigin: row.time_origin,
              temperatureOf: (channel, timeMs) => companions.nearest(channel, row.id, timeMs),
            },
          )
          const key = `${segment.quadrat.label}\n${segment.probe.quantity}`
          const move = moves.get(key) ?? startMove(segment.calibration?.fitted.unit ?? '')
          moves.set(key, move)
          note(move, row, worth)
        }
        const last = slice.at(-1)
        if (slice.length < ROWS || !last) break
        cursor = { fromMs: last.t_ms, fromId: last.id + 1 }
        await nextTurn()
      }
    }
  return [...moves].map(([key, move]) => {
    const [quadrat, quantity] = key.split('\n') as [string, string]
    return {
      quadrat,
      quantity,
      unit: move.unit,
      readings: move.readings,
      valuesBefore: move.before.n,
      valuesAfter: move.after.n,
      meanBefore: mean(move.before),
      meanAfter: mean(move.after),
      smallestMove: move.smallest,
      largestMove: move.largest,
    }
  })
}

function startMove(unit: string): Move {
  return {
    unit,
    readings: 0,
    before: { n: 0, sum: 0 },
    after: { n: 0, sum: 0 },
    smallest: null,
    largest: null,
  }
}

type Judged = Parameters<typeof isCleanReading>[0]

function note(move: Move, before: Judged, after: Judged): void {
  move.readings++
  for (const [side, reading] of [
    [move.before, before],
    [move.after, after],
  ] as const)
    if (isCleanReading(reading)) {
      side.n++
      side.sum += reading.value!
    }
  if (before.value === null || after.value === null) return
  const moved = after.value - before.value
  move.smallest = Math.min(move.smallest ?? moved, moved)
  move.largest = Math.max(move.largest ?? moved, moved)
}

function mean({ n, sum }: { n: number; sum: number }): number | null {
  return n === 0 ? null : sum / n
}
