import { changeEvents, type StreamEvent } from '../hub/contract/stream-events.ts'

/** Finds out that the hub told of a change while this page did not listen: asleep, out of sight, or not yet joined. */
export class ChangesSeen {
  #seen: number

  /** @param seen  changes that the hub had told of before this page fetched what it shows */
  constructor(seen: number) {
    this.#seen = seen
  }

  /** @param changes  as the event says; @returns whether a change was told of that was not heard */
  isMissed(name: StreamEvent, changes: number): boolean {
    // an older hub does not count
    if (!Number.isFinite(changes)) return false
    const before = changes - (changeEvents.includes(name) ? 1 : 0)
    const isMissed = before !== this.#seen
    this.#seen = changes
    return isMissed
  }
}
