import type { QuadratSeries } from '../contract/reading.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import { correctedValue, type DriftInForce, driftOf } from '../survey/drift.ts'
import type { Segment, Timelines } from '../survey/timeline.ts'

export interface SeriesWish {
  survey: string
  quadrat: string
  quantity: string | undefined
  fromMs: number
  toMs: number
  steps: number
}

/** What each probe read while it was at a quadrat, in time order, for charts. */
export function quadratSeries(reader: SqliteReader, timelines: Timelines, wish: SeriesWish): QuadratSeries[] {
  const all: QuadratSeries[] = []
  for (const { id, board, name } of reader.channels()) {
    const segments = timelines.of(board, name).filter((segment) => isWished(segment, wish))
    let current = null as { key: string; series: QuadratSeries } | null
    for (const segment of segments) {
      const fromMs = Math.max(segment.fromMs, wish.fromMs)
      const toMs = Math.min(segment.toMs, wish.toMs)
      const part = reader.series(id, fromMs, toMs, wish.steps)
      if (part.timeMs.length === 0) continue
      const unit = segment.calibration?.fitted.unit ?? ''
      const key = `${segment.probe.id} ${unit}`
      if (current?.key !== key) {
        const { probe, survey } = segment
        current = {
          key,
          series: {
            channel: id,
            quantity: probe.quantity,
            unit,
            probe: probe.id,
            method: probe.method,
            ...emptyLists(),
            corrected: null,
            expectedIntervalSeconds:
              survey.boards.find((setting) => setting.name === board)?.sampleIntervalSeconds ?? null,
          },
        }
        all.push(current.series)
      }
      const done = current.series.timeMs.length
      append(current.series, part)
      addCorrected(current.series, done, driftOf(segment))
    }
  }
  return all
}

/** A point without a correction keeps its place as null, so that the lists stay aligned. */
function addCorrected(series: QuadratSeries, from: number, drift: DriftInForce | null): void {
  if (!drift && series.corrected === null) return
  series.corrected ??= series.timeMs.slice(0, from).map(() => null)
  for (let place = from; place < series.timeMs.length; place++) {
    const mean = series.mean[place]
    series.corrected.push(
      drift && typeof mean === 'number' ? correctedValue(drift, series.timeMs[place]!, mean) : null,
    )
  }
}

function isWished(segment: Segment, wish: SeriesWish): boolean {
  return (
    segment.survey.id === wish.survey &&
    segment.quadrat?.label === wish.quadrat &&
    (wish.quantity === undefined || segment.probe.quantity === wish.quantity) &&
    segment.fromMs < wish.toMs &&
    segment.toMs > wish.fromMs
  )
}

const lists = ['timeMs', 'low', 'mean', 'high', 'uncertainty', 'flag', 'count', 'id'] as const

type Lists = Pick<QuadratSeries, (typeof lists)[number]>

function emptyLists(): Lists {
  return { timeMs: [], low: [], mean: [], high: [], uncertainty: [], flag: [], count: [], id: [] }
}

function append(series: Lists, part: Lists): void {
  for (const list of lists) for (const entry of part[list]) (series[list] as (number | null)[]).push(entry)
}
