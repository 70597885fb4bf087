import { signal } from '@preact/signals'

/**
 * The hub's clock as this page knows it. A phone's own clock may be wrong and a rehearsal's runs fast, so every
 * age is reckoned from what the hub said last and the time gone by here since.
 */
let heardMs = Date.now()
let heardAt = performance.now()
let speed = 1

/** Changes once a second: read it to be drawn again. */
export const hubMs = signal(heardMs)

export function hearClock(nowMs: number, itsSpeed: number = speed): void {
  heardMs = nowMs
  heardAt = performance.now()
  speed = itsSpeed
}

export function hubNowMs(): number {
  return heardMs + (performance.now() - heardAt) * speed
}

/** When the hub was last heard, by its own clock. */
export function lastHeardMs(): number {
  return heardMs
}

let tickedAt = 0

/** Moves {@link hubMs} on; to be called when something else is drawn anew as well, so that both are one drawing. */
export function tick(): void {
  tickedAt = performance.now()
  hubMs.value = hubNowMs()
}

export function startTicking(): void {
  setInterval(() => {
    if (performance.now() - tickedAt > 500) tick()
  }, 1000)
}
