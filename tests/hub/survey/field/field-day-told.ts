import type { CompletenessCell } from '../../../../hub/contract/field.ts'
import type { TrueCell } from './field-day-truth.ts'

/** A board without a clock is dated by its arrival: as true as a message is quick. */
export const QUICK_MS = 100

/** A cell of the hub in the words of the truth. */
export function asTold(cell: CompletenessCell): TrueCell {
  return {
    cell: `${cell.quadrat} ${cell.quantity} ${JSON.stringify(cell.method)}`,
    state: cell.state,
    got: cell.got,
    needed: cell.needed,
    minutes: cell.minutes,
    standing: cell.standing.map(({ probe, received, expected, gaps, isThere, isLogging }) => ({
      probe,
      received,
      expected: expected!,
      gaps,
      isThere,
      isLogging,
    })),
    missing: cell.missing.map(({ kind, words, of }) => {
      const toTake = /(\d+) (?:more|replicates?) to take$/.exec(words)?.[1]
      return [kind, ...(of === null ? [] : [of]), ...(toTake === undefined ? [] : [toTake])].join(' ')
    }),
    lastMs: cell.last?.timeMs ?? null,
  }
}

/** A time as the truth has it, where the hub’s is as near as a message is quick. */
const near = (toldMs: number, trueMs: number | null | undefined) =>
  trueMs != null && Math.abs(toldMs - trueMs) <= QUICK_MS ? trueMs : toldMs

/** The times of a cell as the truth has them, where they agree; others stay, and are seen to differ. */
export function withNearTimes(told: TrueCell, truth: TrueCell): TrueCell {
  return {
    ...told,
    lastMs: told.lastMs === null ? null : near(told.lastMs, truth.lastMs),
    standing: told.standing.map((each, place) => ({
      ...each,
      gaps: each.gaps.map(({ fromMs, toMs }, index) => {
        const gap = truth.standing[place]?.gaps[index]
        return { fromMs: near(fromMs, gap?.fromMs), toMs: near(toMs, gap?.toMs) }
      }),
    })),
  }
}
