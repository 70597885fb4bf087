/** The machine's clock was set: by how much, and when. */
export interface ClockJump {
  /** hub time after the jump */
  atMs: number
  byMs: number
  /** since when the hub had been running with the clock that was then put right */
  sinceMs: number
}

/** Smaller differences come from a busy machine, or are a clock being steered: not worth a person's time. */
const LEAST_MS = 2_000
const LOOK_EVERY_MS = 1_000
const KEPT = 20

/**
 * Notices when the machine's clock is set while the hub runs: a single-board computer that starts without a battery
 * clock, and learns the time later. Measured against the monotonic clock, which nobody can set.
 */
export class ClockWatch {
  readonly #wallMs: () => number
  readonly #steadyMs: () => number
  readonly #onJump: (jumps: readonly ClockJump[]) => void
  readonly #timer: NodeJS.Timeout
  #aheadMs: number
  #sinceMs: number
  #jumps: ClockJump[]

  constructor(
    jumps: readonly ClockJump[],
    onJump: (jumps: readonly ClockJump[]) => void,
    wallMs: () => number = Date.now,
    steadyMs: () => number = () => performance.now(),
  ) {
    this.#jumps = [...jumps]
    this.#onJump = onJump
    this.#wallMs = wallMs
    this.#steadyMs = steadyMs
    this.#aheadMs = wallMs() - steadyMs()
    this.#sinceMs = wallMs()
    this.#timer = setInterval(() => this.look(), LOOK_EVERY_MS)
    this.#timer.unref()
  }

  /** newest last */
  get jumps(): readonly ClockJump[] {
    return this.#jumps
  }

  look(): void {
    const wallMs = this.#wallMs()
    const aheadMs = wallMs - this.#steadyMs()
    const byMs = aheadMs - this.#aheadMs
    this.#aheadMs = aheadMs
    if (Math.abs(byMs) < LEAST_MS) return
    this.#jumps = [...this.#jumps, { atMs: wallMs, byMs: Math.round(byMs), sinceMs: this.#sinceMs }].slice(
      -KEPT,
    )
    this.#sinceMs = wallMs
    this.#onJump(this.#jumps)
  }

  stop(): void {
    clearInterval(this.#timer)
  }
}
