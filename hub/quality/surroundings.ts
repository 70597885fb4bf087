import { metresBetween } from '../contract/quadrat-place.ts'
import type { Archive } from '../store/store.ts'

import type { Segment, Timelines } from '../survey/timeline.ts'
import { NearestValue } from './nearest-value.ts'
import type { Neighbour, Surroundings } from './quality-test.ts'
import { solarElevationDegrees } from './sun.ts'

/** Values of neighbours are looked for this far beyond the readings under review. */
const MARGIN_MS = 3_600_000

interface OtherProbe {
  segment: Segment
  values: NearestValue
}

/** What is known around one series: the sun, the other probes of its quadrat and of the other quadrats, its board. */
export function surroundingsOf(
  timelines: Timelines,
  archive: Archive,
  board: string,
  here: Segment,
  fromMs: number,
  toMs: number,
): Surroundings {
  const others = lazily(() => otherProbes(timelines, archive, here, fromMs - MARGIN_MS, toMs + MARGIN_MS))
  const restarts = lazily(() => archive.restarts(board, fromMs - MARGIN_MS, toMs))
  const method = JSON.stringify(here.probe.method)
  const { latitude, longitude } = here.survey.site
  return {
    solarElevationDegrees: (timeMs) =>
      latitude === undefined || longitude === undefined
        ? null
        : solarElevationDegrees(latitude, longitude, timeMs),
    sameQuadrat(quantity, timeMs, withinMs) {
      for (const { segment, values } of others()) {
        if (segment.quadrat?.label !== here.quadrat?.label || segment.probe.quantity !== quantity) continue
        const value = isThen(segment, timeMs) ? values.at(timeMs, withinMs) : null
        if (value !== null) return value
      }
      return null
    },
    sameBoardRestarted(timeMs, withinMs) {
      const began = restarts()
      if (began.length === 0) return null
      return began.some((startMs) => startMs <= timeMs && timeMs - startMs <= withinMs)
    },
    neighbours(timeMs, withinMs) {
      const found: Neighbour[] = []
      for (const { segment, values } of others()) {
        const { quadrat, probe } = segment
        if (!quadrat || quadrat.label === here.quadrat?.label || !isThen(segment, timeMs)) continue
        if (probe.quantity !== here.probe.quantity || JSON.stringify(probe.method) !== method) continue
        const value = values.at(timeMs, withinMs)
        if (value === null) continue
        const distanceMetres = here.quadrat ? metresBetween(quadrat, here.quadrat) : null
        if (distanceMetres === null) continue
        found.push({ quadrat: quadrat.label, distanceMetres, value })
      }
      return found
    },
  }
}

function isThen(segment: Segment, timeMs: number): boolean {
  return segment.fromMs <= timeMs && timeMs < segment.toMs
}

function otherProbes(
  timelines: Timelines,
  archive: Archive,
  here: Segment,
  fromMs: number,
  toMs: number,
): OtherProbe[] {
  return timelines.channels().flatMap(({ board, channel }) => {
    const segments = timelines
      .of(board, channel)
      .filter(
        (segment) =>
          segment.quadrat !== null &&
          segment.survey.id === here.survey.id &&
          segment.probe.id !== here.probe.id &&
          segment.fromMs <= toMs &&
          segment.toMs > fromMs,
      )
    if (segments.length === 0) return []
    const values = new NearestValue(archive.values(board, channel, fromMs, toMs))
    return segments.map((segment) => ({ segment, values }))
  })
}

function lazily<T extends object>(make: () => T): () => T {
  let made: T | undefined
  return () => {
    made ??= make()
    return made
  }
}
