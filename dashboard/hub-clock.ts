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

export function startTicking(): void {
  setInterval(() => {
    hubMs.value = hubNowMs()
  }, 1000)
}
