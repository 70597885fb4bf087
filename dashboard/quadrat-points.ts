import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { ChannelNow, ChartMark, QuadratSeries, TimeSpan } from '../hub/contract/reading.ts'
import type { SurveyFile } from '../hub/contract/survey.ts'
import { joinPoints, pointOf, pointsOf, type SeriesPoint } from './charts/series-points.ts'
import { client, messageOf, type QuadratRecord } from './client.ts'
import { hubMs, hubNowMs } from './hub-clock.ts'
import { connection } from './live.ts'
import { onReadings, rewritten } from './notebook.ts'
import type { Span } from './spans.ts'

const STEPS = 600
/** Readings drawn one by one at the most, before the page asks the hub for steps again. */
const STREAMED_AT_MOST = 3000
/** Night falls and breaks while a chart stands open: it is asked for anew after this long. */
const FRESH_MS = 1_800_000

export interface LiveSeries {
  series: Pick<
    QuadratSeries,
    'channel' | 'quantity' | 'unit' | 'probe' | 'method' | 'expectedIntervalSeconds'
  >
  points: SeriesPoint[]
  /** a person has asked to see it corrected for drift */
  isCorrected: boolean
}

export interface QuadratPoints {
  /** null: not fetched yet */
  all: LiveSeries[] | null
  nights: TimeSpan[]
  marks: ChartMark[]
  trouble: string | null
}

/** When the first probe was put at this quadrat: the beginning of “all”. */
export function firstPlacedMs(survey: SurveyFile, quadrat: string): number {
  const from = survey.placements
    .filter((each) => each.quadrat === quadrat)
    .map((each) => Date.parse(each.from))
  return from.length === 0 ? hubNowMs() - 3_600_000 : Math.min(...from)
}

/**
 * A quadrat's series for a span of time: fetched, then continued from the stream.
 * @param drawnMs  what came since it changed last waits until it changes again
 */
export function useQuadratPoints(
  survey: SurveyFile,
  quadrat: string,
  span: Span,
  channels: readonly ChannelNow[],
  drawnMs: number,
): QuadratPoints {
  const [fetched, setFetched] = useState<(QuadratRecord & { upToMs: number }) | null>(null)
  const [trouble, setTrouble] = useState<string | null>(null)
  const [again, setAgain] = useState(0)
  const streamed = useRef(new Map<number, SeriesPoint[]>())
  const isLost = connection.value === 'lost'

  useEffect(() => {
    if (isLost) return
    let isCurrent = true
    const askedAt = hubNowMs()
    const from = span.ms === null ? firstPlacedMs(survey, quadrat) : askedAt - span.ms
    streamed.current = new Map()
    client
      .series(survey.id, quadrat, { from: new Date(from).toISOString(), steps: STEPS })
      .then((record) => {
        if (!isCurrent) return
        setFetched({ ...record, upToMs: askedAt })
        setTrouble(null)
      })
      .catch((error: unknown) => {
        if (isCurrent) setTrouble(messageOf(error))
      })
    return () => {
      isCurrent = false
    }
  }, [survey, quadrat, span, rewritten.value, isLost, again])

  const here = channels.filter((channel) => channel.survey === survey.id && channel.quadrat === quadrat)
  const listened = useRef<ReadonlySet<number>>(new Set())
  listened.current = new Set(here.map(({ id }) => id))
  useEffect(
    () =>
      onReadings((rows) => {
        for (const row of rows) {
          if (!listened.current.has(row[1])) continue
          const points = streamed.current.get(row[1]) ?? []
          points.push(pointOf(row))
          streamed.current.set(row[1], points)
          if (points.length > STREAMED_AT_MOST) {
            streamed.current.set(row[1], [])
            setAgain((count) => count + 1)
          }
        }
      }),
    [],
  )

  const isOld = fetched !== null && hubMs.value - fetched.upToMs > FRESH_MS
  useEffect(() => {
    if (isOld) setAgain((count) => count + 1)
  }, [isOld])

  const fetchedPoints = useMemo(() => fetched?.series.map(pointsOf) ?? [], [fetched])
  const nights = useMemo(
    () => fetched?.nights.map((night) => stillNight(night, fetched.upToMs)) ?? [],
    [fetched],
  )
  const placed = here.map(({ id, probe, quantity }) => `${id} ${probe} ${quantity}`).join()
  const all = useMemo(() => {
    if (!fetched) return null
    const series: LiveSeries[] = fetched.series.map((series, index) => {
      const isStillHere = here.some(({ id, probe }) => id === series.channel && probe === series.probe)
      const fresh = isStillHere ? (streamed.current.get(series.channel) ?? []) : []
      const points = joinPoints(fetchedPoints[index] ?? [], fresh, fetched.upToMs)
      return { series, points, isCorrected: series.corrected !== null }
    })
    for (const channel of here)
      if (channel.quantity !== null && !fetched.series.some((series) => series.channel === channel.id))
        series.push({
          series: seriesOf(channel, survey),
          points: [...(streamed.current.get(channel.id) ?? [])],
          isCorrected: false,
        })
    return series
  }, [fetched, placed, drawnMs])
  return { all, nights, marks: fetched?.marks ?? NO_MARKS, trouble }
}

const NO_MARKS: ChartMark[] = []

/** A night that had not ended when it was asked for goes on until it is asked for again. */
function stillNight(night: TimeSpan, upToMs: number): TimeSpan {
  return night.toMs >= upToMs ? { ...night, toMs: upToMs + FRESH_MS } : night
}

/** A probe that has sent nothing in this span yet. */
function seriesOf(channel: ChannelNow, survey: SurveyFile): LiveSeries['series'] {
  return {
    channel: channel.id,
    quantity: channel.quantity ?? '',
    unit: channel.valueUnit ?? '',
    probe: channel.probe ?? '',
    method: channel.method ?? {},
    expectedIntervalSeconds:
      survey.boards.find((board) => board.name === channel.board)?.sampleIntervalSeconds ?? null,
  }
}
