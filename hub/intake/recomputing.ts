import { sayDataError } from '../store/open-database.ts'
import type { Appraise, ClockWork, Review, StoreWriter } from '../store/store.ts'

/** Readings at once: some 20 ms while nobody sends, and some 5 ms where boards wait for their acknowledgement. */
const ALONE = { recompute: 4000, review: 1000, roll: 10_000 }
const BESIDE_INTAKE = { recompute: 1000, review: 250, roll: 2500 }
const RETRY_MS = 1000
/** What boards send comes first; but so often at most, one after the other, so that the rest is not put off for ever. */
const PUT_OFF_AT_MOST = 100
const PUT_OFF_MS = 10

export interface RecomputingEvents {
  /** more is waiting to be stored than fits into one transaction */
  isIntakeBehind(): boolean
  /** something has come in within the last second */
  isIntakeBusy(): boolean
  /** some of it is done, or the work begins or ends */
  moved(): void
  finished(): void
  trouble(text: string): void
}

/** Works off what is due to be put right in time, recomputed, and then reviewed, a little at a time, between what arrives. */
export class Recomputing {
  readonly #writer: StoreWriter
  readonly #folder: string
  readonly #appraise: () => Appraise
  readonly #review: () => Review
  readonly #clockWork: () => ClockWork
  readonly #events: RecomputingEvents
  #isGoing = false
  #isStopped = false
  #isRoutine = false
  /** something has come out differently that the pages have not been told of */
  #isUnseen = false
  #putOff = 0

  constructor(
    writer: StoreWriter,
    folder: string,
    appraise: () => Appraise,
    review: () => Review,
    clockWork: () => ClockWork,
    events: RecomputingEvents,
  ) {
    this.#writer = writer
    this.#folder = folder
    this.#appraise = appraise
    this.#review = review
    this.#clockWork = clockWork
    this.#events = events
  }

  /** at work on what somebody changed; the review of what has just arrived is routine, and nobody need be told of it */
  get isGoing(): boolean {
    return this.#isGoing && !this.#isRoutine
  }

  /** Looks whether anything is due, and begins; does nothing when it is at work already. */
  begin(isRoutine = false): void {
    if (!isRoutine) this.#isRoutine = false
    if (this.#isGoing || this.#isStopped) return
    this.#isRoutine = isRoutine
    this.#isGoing = true
    setImmediate(() => this.#step())
  }

  stop(): void {
    this.#isStopped = true
  }

  #step(): void {
    if (this.#isStopped) return
    if (this.#events.isIntakeBehind() && this.#putOff < PUT_OFF_AT_MOST) {
      this.#putOff++
      setTimeout(() => this.#step(), PUT_OFF_MS)
      return
    }
    this.#putOff = 0
    const atOnce = this.#events.isIntakeBusy() ? BESIDE_INTAKE : ALONE
    try {
      // times first, because what a reading is worth depends on when it was
      const done =
        this.#reclockSome() ??
        this.#writer.recomputeSome(this.#appraise(), atOnce.recompute) ??
        this.#reviewSome(atOnce.review) ??
        this.#rollSome(atOnce.roll)
      if (done) {
        this.#isUnseen = true
        this.#events.moved()
      }
      if (done === null) {
        this.#isGoing = false
        if (this.#isUnseen) this.#events.finished()
        this.#isUnseen = false
        this.#events.moved()
      } else setImmediate(() => this.#step())
    } catch (error) {
      this.#events.trouble(sayDataError(error, this.#folder))
      setTimeout(() => this.#step(), RETRY_MS).unref()
    }
  }

  #reclockSome(): boolean | null {
    const moved = this.#writer.reclockSome(this.#clockWork())
    return moved === null ? null : moved.moved > 0
  }

  /** Last, when no reading is about to change: charts are drawn from what this makes. @returns null when nothing is due */
  #rollSome(rows: number): false | null {
    if (this.#writer.rollSome(false, rows) === null) return null
    if (!this.#isUnseen) this.#isRoutine = true
    return false
  }

  /** @returns whether anything came out differently, or null when nothing is due */
  #reviewSome(rows: number): boolean | null {
    const reviewed = this.#writer.reviewSome(this.#review(), rows)
    return reviewed === null ? null : reviewed.changed > 0
  }
}
