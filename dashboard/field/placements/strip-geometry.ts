import { wallTime } from '../../bench/wall-time.ts'
import type { Stretch } from './stretches.ts'

export interface View {
  fromMs: number
  toMs: number
}

export interface Box {
  stretch: Stretch
  x: number
  width: number
}

/** Where a moment lies on a strip, from its left end; outside the view it lies outside the strip. */
export function placeOnStrip(timeMs: number, { fromMs, toMs }: View, width: number): number {
  return ((timeMs - fromMs) / (toMs - fromMs)) * width
}

/** Stretches to scale on a strip of some width; those outside the view are left out, those across its ends cut. */
export function boxesOf(stretches: readonly Stretch[], view: View, width: number): Box[] {
  return stretches.flatMap((stretch) => {
    const fromMs = Math.max(stretch.fromMs, view.fromMs)
    const toMs = Math.min(stretch.toMs ?? view.toMs, view.toMs)
    if (toMs <= fromMs) return []
    const x = placeOnStrip(fromMs, view, width)
    return [{ stretch, x, width: placeOnStrip(toMs, view, width) - x }]
  })
}

const MINUTE_MS = 60_000
const STEPS_MINUTES = [1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440, 2880, 10_080, 43_200]

/**
 * Moments to write under a strip: full minutes or hours of the zone’s own clock, not closer than `leastWidth`. A change of
 * the clocks within the view shifts the marks after it, not their times.
 */
export function ticksOf(view: View, width: number, leastWidth: number, zone: string | undefined): number[] {
  const perMinute = placeOnStrip(view.fromMs + MINUTE_MS, view, width)
  const minutes = STEPS_MINUTES.find((step) => step * perMinute >= leastWidth) ?? STEPS_MINUTES.at(-1)!
  const stepMs = minutes * MINUTE_MS
  const wall = Date.parse(`${wallTime(view.fromMs, zone)}Z`)
  const aheadMs = wall - Math.floor(view.fromMs / MINUTE_MS) * MINUTE_MS
  const first = Math.ceil((view.fromMs + aheadMs) / stepMs) * stepMs - aheadMs
  const ticks: number[] = []
  for (let timeMs = first; timeMs <= view.toMs; timeMs += stepMs) ticks.push(timeMs)
  return ticks
}
