import { metresBetween } from '../contract/quadrat-place.ts'
import type { Archive } from '../store/store.ts'
import type { Segment, Timelines } from '../survey/timeline.ts'
import { NearestValue } from './nearest-value.ts'
import { NEIGHBOURS_AT_MOST } from './neighbours-at-most.ts'
import type { Neighbour, Surroundings } from './quality-test.ts'
import { solarElevationDegrees } from './sun.ts'

/** Start-ups are looked for this far before the readings under review. */
const RESTARTS_WITHIN_MS = 3_600_000

const CLOSE_BY_MS = 30_000

interface Span {
  fromMs: number
  toMs: number
}

/** A probe elsewhere, or of another quantity, while it was the same thing. */
interface Other {
  board: string
  channel: string
  segment: Segment
  /** as far as the metre along a transect or tape tells; null: at the same quadrat, or not known */
  distanceMetres: number | null
  /** of its values, what was read last */
  known: Known | undefined
}

type PlacedOther = Other & { distanceMetres: number }

interface Known extends Span {
  values: NearestValue
}

/** The probes around one, and their values, read from the store only when a test asks for them. */
export class Others {
  readonly #archive: Archive
  readonly #board: string
  readonly #here: Segment
  readonly #timelines: Timelines
  readonly #read = new Map<string, Known>()
  #sameQuadrat: Other[] | undefined
  #neighbours: PlacedOther[] | undefined

  constructor(timelines: Timelines, archive: Archive, board: string, here: Segment) {
    this.#timelines = timelines
    this.#archive = archive
    this.#board = board
    this.#here = here
  }

  /**
   * What is known around a series.
   * @param asked  the part of it that most questions will be about
   */
  during(series: Span, asked: Span = series): Surroundings {
    const valueAt = (other: Other, timeMs: number, withinMs: number) => {
      if (timeMs < other.segment.fromMs || timeMs >= other.segment.toMs) return null
      const isAsked = asked.fromMs <= timeMs && timeMs <= asked.toMs
      const { fromMs, toMs } = isAsked ? asked : { fromMs: timeMs, toMs: timeMs }
      // most have one close by, and to look for it takes reading less
      for (const nearMs of withinMs > CLOSE_BY_MS ? [CLOSE_BY_MS, withinMs] : [withinMs]) {
        const value = this.#values(other, fromMs - nearMs, toMs + nearMs).at(timeMs, nearMs)
        if (value !== null) return value
      }
      return null
    }
    const restarts = lazily(() =>
      this.#archive.restarts(this.#board, series.fromMs - RESTARTS_WITHIN_MS, series.toMs),
    )
    const { latitude, longitude } = this.#here.survey.site
    return {
      solarElevationDegrees: (timeMs) =>
        latitude === undefined || longitude === undefined
          ? null
          : solarElevationDegrees(latitude, longitude, timeMs),
      sameQuadrat: (quantity, timeMs, withinMs) => {
        for (const other of this.#atSameQuadrat()) {
          if (other.segment.probe.quantity !== quantity) continue
          const value = valueAt(other, timeMs, withinMs)
          if (value !== null) return value
        }
        return null
      },
      sameBoardRestarted(timeMs, withinMs) {
        const began = restarts()
        if (began.length === 0) return null
        return began.some((startMs) => startMs <= timeMs && timeMs - startMs <= withinMs)
      },
      neighbours: (timeMs, withinMs, withinMetres = Infinity) => {
        const found: Neighbour[] = []
        for (const other of this.#atOtherQuadrats()) {
          const { distanceMetres, segment } = other
          if (distanceMetres > withinMetres || found.length === NEIGHBOURS_AT_MOST) break
          const value = valueAt(other, timeMs, withinMs)
          if (value !== null) found.push({ quadrat: segment.quadrat!.label, distanceMetres, value })
        }
        return found
      },
    }
  }

  #atSameQuadrat(): Other[] {
    this.#sameQuadrat ??= this.#others(({ quadrat }) => quadrat?.label === this.#here.quadrat?.label)
    return this.#sameQuadrat
  }

  /** Of the same quantity, by the same method, the nearest first; those whose distance is known. */
  #atOtherQuadrats(): PlacedOther[] {
    const { quadrat, probe } = this.#here
    const method = JSON.stringify(probe.method)
    this.#neighbours ??= this.#others(
      (segment) =>
        segment.quadrat?.label !== quadrat?.label &&
        segment.probe.quantity === probe.quantity &&
        JSON.stringify(segment.probe.method) === method,
    )
      .filter((other): other is PlacedOther => other.distanceMetres !== null)
      .sort((one, other) => one.distanceMetres - other.distanceMetres)
    return this.#neighbours
  }

  #others(isWanted: (segment: Segment) => boolean): Other[] {
    const { survey, probe, quadrat } = this.#here
    return this.#timelines.channels().flatMap(({ board, channel }) =>
      this.#timelines.of(board, channel).flatMap((segment) => {
        const isOther = segment.survey.id === survey.id && segment.probe.id !== probe.id
        if (!isOther || segment.quadrat === null || !isWanted(segment)) return []
        const distanceMetres = quadrat ? metresBetween(segment.quadrat, quadrat) : null
        return [{ board, channel, segment, distanceMetres, known: undefined }]
      }),
    )
  }

  #values(other: Other, fromMs: number, toMs: number): NearestValue {
    if (!covers(other.known, fromMs, toMs)) other.known = this.#readOnce(other, fromMs, toMs)
    return other.known!.values
  }

  #readOnce({ board, channel }: Other, fromMs: number, toMs: number): Known {
    const key = `${board}/${channel}`
    const before = this.#read.get(key)
    if (covers(before, fromMs, toMs)) return before!
    const isBeside = before !== undefined && before.fromMs <= toMs && before.toMs >= fromMs
    const span = isBeside
      ? { fromMs: Math.min(fromMs, before.fromMs), toMs: Math.max(toMs, before.toMs) }
      : { fromMs, toMs }
    const values = new NearestValue(this.#archive.values(board, channel, span.fromMs, span.toMs))
    const known = { ...span, values }
    this.#read.set(key, known)
    return known
  }
}

function covers(known: Known | undefined, fromMs: number, toMs: number): boolean {
  return known !== undefined && known.fromMs <= fromMs && known.toMs >= toMs
}

function lazily<T extends object>(make: () => T): () => T {
  let made: T | undefined
  return () => {
    made ??= make()
    return made
  }
}
