import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { ChartMark, TimeSpan } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { chartRows } from '../charts/chart-rows.ts'
import { makeSeriesChart, type PlotArea, type SeriesChart } from '../charts/series-chart.ts'
import { tickText } from '../charts/tick-text.ts'
import { countText, shownFactor } from '../format.ts'
import type { LiveSeries } from '../quadrat-points.ts'
import { ByHand } from '../quality/by-hand/by-hand.tsx'
import { DecisionNote } from '../quality/by-hand/decision-note.tsx'
import { decisionAt } from '../quality/by-hand/span.ts'
import { useBackdrop } from '../quality/by-hand/use-backdrop.ts'
import { useMarkedSpan } from '../quality/by-hand/use-marked-span.ts'
import { quantityWords } from '../quantities.ts'
import { leastSpans } from '../spans.ts'
import { ChartMarks } from './chart-marks.tsx'
import { PointReadout } from './point-readout.tsx'
import { useSeen } from './use-seen.ts'
import { useWidth } from './use-width.ts'
import { whenChanged } from './when-changed.tsx'

const HEIGHT = 168

/**
 * One probe's readings against time. A point can be pointed at, tapped, or walked to with the arrow keys; a span can be
 * marked with the mouse, two taps or Shift and the arrow keys, to decide on it by hand.
 */
export const QuadratChart = whenChanged(function QuadratChart(props: {
  survey: SurveyFile
  quadrat: string
  live: LiveSeries
  nights: readonly TimeSpan[]
  marks: readonly ChartMark[]
  fromMs: number
  toMs: number
  zone: string | undefined
}) {
  const { survey, live, nights, fromMs, toMs, zone } = props
  const { quantity, unit, probe, expectedIntervalSeconds } = live.series
  const [ref, width] = useWidth<HTMLDivElement>()
  const chart = useRef<SeriesChart | null>(null)
  const [area, setArea] = useState<PlotArea | null>(null)
  /** the point looked at, by its time: rows shift as readings arrive */
  const [looked, setLooked] = useState<{ timeMs: number; isChosen: boolean; atMs: number } | null>(null)
  const span = useMarkedSpan()
  const isSeen = useSeen(ref)
  // a chart that is scrolled away stands still until it is looked at
  const newest = { points: live.points, fromMs, toMs }
  const still = useRef(newest)
  if (isSeen) still.current = newest
  const { points } = still.current
  const rows = useMemo(
    () => chartRows(points, expectedIntervalSeconds, shownFactor(unit)),
    [points, expectedIntervalSeconds, unit],
  )
  const shown = useRef(rows)
  shown.current = rows
  const marks = useMemo(() => props.marks.filter((mark) => mark.probe === probe), [props.marks, probe])
  const backdrop = useBackdrop(survey, probe, nights, marks, span.marked)

  useEffect(() => {
    const element = ref.current
    if (!element || width === 0 || chart.current) return
    chart.current = makeSeriesChart({
      element,
      width,
      height: HEIGHT,
      zone,
      factor: shownFactor(unit),
      leastSpan: leastSpans[quantity] ?? 1,
      tickText: (value, apart) => tickText(value, apart, unit),
      onPoint(index, isChosen, atMs) {
        const point = index === null ? null : shown.current.points[index]
        setLooked((before) => {
          if (before?.isChosen && !isChosen) return before
          return point ? { timeMs: point.timeMs, isChosen, atMs } : null
        })
      },
      onTap: span.tap,
      onDrag: span.drag,
      onArea: setArea,
    })
  }, [ref, width, zone, quantity, unit])
  useEffect(
    () => () => {
      chart.current?.close()
      chart.current = null
    },
    [],
  )
  useEffect(() => {
    if (width > 0) chart.current?.resize(width)
  }, [width])
  const index = looked === null ? -1 : rows.points.findIndex((point) => point?.timeMs === looked.timeMs)
  useEffect(() => {
    chart.current?.draw(rows, still.current.fromMs, still.current.toMs, backdrop)
  }, [rows, still.current.fromMs, still.current.toMs, width, backdrop])
  useEffect(() => {
    // on paper nothing is scrolled away
    const drawNewest = () =>
      chart.current?.draw(
        chartRows(live.points, expectedIntervalSeconds, shownFactor(unit)),
        fromMs,
        toMs,
        backdrop,
      )
    addEventListener('beforeprint', drawNewest)
    return () => removeEventListener('beforeprint', drawNewest)
  })
  useEffect(() => chart.current?.choose(looked?.isChosen && index >= 0 ? index : null), [looked, index])

  const drawn = live.points.filter(({ timeMs }) => timeMs >= fromMs && timeMs <= toMs)
  const walk = (event: KeyboardEvent) => {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key]
    if (step === undefined || drawn.length === 0) return
    event.preventDefault()
    const at = drawn.findIndex((point) => point.timeMs === looked?.timeMs)
    const next = drawn[at < 0 ? drawn.length - 1 : Math.min(drawn.length - 1, Math.max(0, at + step))]
    if (!next) return
    if (event.shiftKey) span.stretch(looked?.timeMs ?? next.timeMs, next.timeMs)
    else span.letGo()
    setLooked({ timeMs: next.timeMs, isChosen: true, atMs: next.timeMs })
  }
  const words = quantityWords(quantity)
  const decision = looked && decisionAt(survey.decisions ?? [], probe, looked.atMs)
  return (
    <div class="chart-and-readout">
      {area && <ChartMarks {...{ marks, fromMs, toMs, area, zone }} />}
      <div
        class={span.isMarking ? 'chart is-marking' : 'chart'}
        ref={ref}
        data-chart={quantity}
        data-points={drawn.length}
        data-span-select={probe}
        role="img"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys walk along its points
        tabIndex={0}
        aria-label={`${words.label} over time, ${countText(drawn.length, 'point')}. Left and right arrow keys walk along them; with Shift they mark a span.`}
        onKeyDown={walk}
      >
        {drawn.length === 0 && <p class="chart-empty">Nothing in this span of time.</p>}
      </div>
      {decision && <DecisionNote survey={survey.id} decision={decision} zone={zone} />}
      <div class="under-chart">
        <PointReadout
          live={live}
          point={rows.points[index] ?? null}
          isChosen={looked?.isChosen ?? false}
          zone={zone}
          onLetGo={() => setLooked(null)}
        />
        <ByHand
          survey={survey}
          quadrat={props.quadrat}
          series={live.series}
          marked={span.marked}
          isMarking={span.isMarking}
          zone={zone}
          onMarked={span.setMarked}
          onMarking={span.setMarking}
        />
      </div>
    </div>
  )
})
