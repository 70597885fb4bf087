import type { AddClockCorrection } from '../../../hub/contract/changes.ts'
import type { HubNow } from '../../../hub/contract/status.ts'
import type { ClockCorrection } from '../../../hub/contract/survey.ts'

type Jump = HubNow['clockJumps'][number]

/** The hub looks at its clock once a second. */
const LOOKED_SECONDS = 1

/**
 * The hub’s own clock was put right while it ran: what was timed by it before is wrong by as much, and is offered to be
 * moved, one correction a board. Those kept already, or that would move nothing, are left out.
 * @param boards  whose times come from the hub’s clock
 */
export function jumpOffers(
  jumps: readonly Jump[],
  boards: readonly string[],
  kept: readonly ClockCorrection[],
): { jump: Jump; corrections: AddClockCorrection[] }[] {
  return jumps.flatMap((jump) => {
    // by the clock that was wrong: it had come this far when it was set
    const untilMs = jump.atMs - jump.byMs
    if (untilMs <= jump.sinceMs) return []
    const corrections = boards
      .map((board) => ({
        board,
        from: new Date(jump.sinceMs).toISOString(),
        to: new Date(untilMs).toISOString(),
        offsetSeconds: jump.byMs / 1000,
        errorSeconds: LOOKED_SECONDS,
        reason: 'the hub’s own clock was put right later',
      }))
      .filter(
        (offer) =>
          !kept.some(
            ({ board, from, offsetSeconds }) =>
              board === offer.board &&
              Date.parse(from) === Date.parse(offer.from) &&
              offsetSeconds === offer.offsetSeconds,
          ),
      )
    return corrections.length === 0 ? [] : [{ jump, corrections }]
  })
}
