import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { chartRows } from '../charts/chart-rows.ts'
import { makeSeriesChart, type SeriesChart } from '../charts/series-chart.ts'
import { countText, numberText, shownFactor, unitText } from '../format.ts'
import type { LiveSeries } from '../quadrat-points.ts'
import { quantityWords } from '../quantities.ts'
import { leastSpans } from '../spans.ts'
import { PointReadout } from './point-readout.tsx'
import { useWidth } from './use-width.ts'

const HEIGHT = 168

/** One probe's readings against time; a point can be pointed at, tapped, or walked to with the arrow keys. */
export function QuadratChart(props: {
  live: LiveSeries
  fromMs: number
  toMs: number
  zone: string | undefined
}) {
  const { live, fromMs, toMs, zone } = props
  const { quantity, unit, expectedIntervalSeconds } = live.series
  const [ref, width] = useWidth<HTMLDivElement>()
  const chart = useRef<SeriesChart | null>(null)
  /** the point looked at, by its time: rows shift as readings arrive */
  const [looked, setLooked] = useState<{ timeMs: number; isChosen: boolean } | null>(null)
  const rows = useMemo(
    () => chartRows(live.points, expectedIntervalSeconds, shownFactor(unit)),
    [live.points, expectedIntervalSeconds, unit],
  )
  const shown = useRef(rows)
  shown.current = rows

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
      onPoint(index, isChosen) {
        const point = index === null ? null : shown.current.points[index]
        setLooked((before) => {
          if (before?.isChosen && !isChosen) return before
          return point ? { timeMs: point.timeMs, isChosen } : null
        })
      },
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
    chart.current?.draw(rows, fromMs, toMs)
  }, [rows, fromMs, toMs, width])
  useEffect(() => chart.current?.choose(looked?.isChosen && index >= 0 ? index : null), [looked, index])

  const drawn = live.points.filter(({ timeMs }) => timeMs >= fromMs && timeMs <= toMs)
  const walk = (event: KeyboardEvent) => {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key]
    if (step === undefined || drawn.length === 0) return
    event.preventDefault()
    const at = drawn.findIndex((point) => point.timeMs === looked?.timeMs)
    const next = drawn[at < 0 ? drawn.length - 1 : Math.min(drawn.length - 1, Math.max(0, at + step))]
    if (next) setLooked({ timeMs: next.timeMs, isChosen: true })
  }
  const words = quantityWords(quantity)
  return (
    <div class="chart-and-readout">
      <div
        class="chart"
        ref={ref}
        data-chart={quantity}
        data-points={drawn.length}
        role="img"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys walk along its points
        tabIndex={0}
        aria-label={`${words.label} over time, ${countText(drawn.length, 'point')}. Left and right arrow keys walk along them.`}
        onKeyDown={walk}
      >
        {drawn.length === 0 && <p class="chart-empty">Nothing in this span of time.</p>}
      </div>
      <PointReadout
        live={live}
        point={rows.points[index] ?? null}
        isChosen={looked?.isChosen ?? false}
        zone={zone}
        onLetGo={() => setLooked(null)}
      />
    </div>
  )
}

function tickText(value: number, apart: number, unit: string): string {
  const text = numberText(value, Math.min(4, Math.max(0, -Math.floor(Math.log10(apart) + 1e-9))))
  const written = unitText(unit)
  return written === 'pH' ? `pH ${text}` : `${text} ${written}`
}
