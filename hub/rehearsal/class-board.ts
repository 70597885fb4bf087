import type { BoardPlan } from './board-plan.ts'
import type { TellParent } from './parent-lines.ts'
import type { RehearsalClock } from './rehearsal-clock.ts'
import type { Sample } from './sampling.ts'
import type { TruthFile } from './truth-file.ts'

/** What every board of the class is given. */
export interface BoardSurroundings {
  readonly clock: RehearsalClock
  readonly truth: TruthFile
  readonly tell: TellParent
  /** `every …` from the hub */
  readonly changeInterval: (plan: BoardPlan, seconds: number) => void
}

/** A board, whatever its link. */
export interface ClassBoard {
  readonly plan: BoardPlan
  /** messages not yet acknowledged */
  readonly waiting: number
  switchOn(): Promise<void>
  /** Power off, without goodbye. */
  switchOff(): Promise<void>
  take(sample: Sample): void
  /** @returns false when there is nothing to say it on just now */
  sendGarbage(what: string, bytes: Buffer): boolean
  /**
   * Sends the latest message a second time.
   * @param isFresh  with relative times worked out afresh, instead of the same bytes
   */
  repeatLatest(isFresh: boolean): boolean
  /** Breaks the link for a while: the cable pulled mid-line, or the radio out of reach. */
  breakLink(forRealMs: number): boolean
}
