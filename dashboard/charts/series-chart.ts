import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import { type Backdrop, drawBackdrop, drawMarked, EMPTY_BACKDROP } from './backdrop.ts'
import type { ChartRows } from './chart-rows.ts'
import { followDrag } from './drag-span.ts'
import { drawFlagMarks } from './flag-marks.ts'
import { timeLabels } from './time-axis.ts'
import { valueRange } from './value-range.ts'

/** The one file that knows the chart library. */
export interface SeriesChart {
  draw(rows: ChartRows, fromMs: number, toMs: number, backdrop: Backdrop): void
  resize(width: number): void
  choose(index: number | null): void
  close(): void
}

export interface SeriesChartWish {
  element: HTMLElement
  width: number
  height: number
  zone: string | undefined
  /** from the unit stored to the unit shown */
  factor: number
  /** the narrowest span of the value axis, in the unit shown */
  leastSpan: number
  tickText: (value: number, apart: number) => string
  /** the row under the pointer, or null, and the time there; `isChosen` when it was tapped */
  onPoint: (index: number | null, isChosen: boolean, timeMs: number) => void
  /** @returns whether the tap was taken for an end of a span: then it chooses no point */
  onTap: (timeMs: number) => boolean
  /** a mouse is drawn from one time to the other */
  onDrag: (oneMs: number, otherMs: number) => void
  /** where the plot lies in the chart, px; told again when that changes */
  onArea: (area: PlotArea) => void
}

export interface PlotArea {
  left: number
  width: number
}

export function makeSeriesChart(wish: SeriesChartWish): SeriesChart {
  const style = getComputedStyle(document.documentElement)
  const ink = (name: string) => style.getPropertyValue(name).trim()
  // a finger leaves no pointer behind: only what was tapped is marked
  const hasHover = matchMedia('(hover: hover)').matches
  let rows: ChartRows = { seconds: [], line: [], bandLow: [], bandHigh: [], corrected: [], points: [] }
  let backdrop = EMPTY_BACKDROP
  let area: PlotArea = { left: 0, width: 0 }
  let chosen: number | null = null
  let [fromMs, toMs] = [0, 1]
  const font = `12px ${ink('--hand')}`
  const axis = {
    stroke: () => ink('--pencil'),
    font,
    grid: { stroke: () => ink('--rule'), width: 1 },
    ticks: { stroke: () => ink('--rule-strong'), width: 1, size: 5 },
  }
  const chart = new uPlot(
    {
      width: wish.width,
      height: wish.height,
      legend: { show: false },
      cursor: {
        x: hasHover,
        ...(hasHover ? { sync: { key: 'quadrat', setSeries: false } } : {}),
        drag: { x: false, y: false },
        y: false,
        points: {
          size: (_, series) => (series === 1 && hasHover ? 9 : 0),
          fill: () => ink('--margin'),
          stroke: () => ink('--margin'),
        },
        dataIdx: (_, __, hovered) => hovered,
      },
      scales: {
        x: { time: false, range: () => [fromMs / 1000, toMs / 1000] },
        y: {
          range: () => valueRange([rows.line, rows.bandLow, rows.bandHigh, rows.corrected], wish.leastSpan),
        },
      },
      series: [
        {},
        {
          stroke: () => ink('--ink'),
          width: 1.8,
          spanGaps: false,
          points: { size: 4.5, fill: () => ink('--ink'), stroke: () => ink('--ink') },
        },
        { stroke: 'transparent', width: 0, points: { show: false } },
        { stroke: 'transparent', width: 0, points: { show: false } },
        {
          stroke: () => ink('--late'),
          width: 2,
          dash: [7, 5],
          spanGaps: false,
          points: { show: false },
        },
      ],
      bands: [{ series: [3, 2], fill: () => ink('--band') }],
      axes: [
        {
          ...axis,
          size: 30,
          space: 72,
          values: (_, seconds) => timeLabels(seconds, wish.zone),
          incrs: TIME_STEPS,
        },
        {
          ...axis,
          size: 74,
          space: 26,
          incrs: VALUE_STEPS,
          values: (_, values) => {
            const apart = Math.abs((values[1] ?? 1) - (values[0] ?? 0))
            return values.map((value) => wish.tickText(value, apart))
          },
        },
      ],
      hooks: {
        drawClear: [tellArea, (drawn) => drawBackdrop(drawn, backdrop, ink)],
        draw: [
          (drawn) => drawFlagMarks(drawn, rows, wish.factor, chosen, ink),
          (drawn) => drawMarked(drawn, backdrop, ink),
        ],
        setCursor: [
          (drawn) => {
            const { event, left = -1 } = drawn.cursor
            if (event) wish.onPoint(nearest(left), false, timeAt(left))
          },
        ],
      },
    },
    [[], [], [], [], []],
    wish.element,
  )
  function timeAt(x: number): number {
    return chart.posToVal(x, 'x') * 1000
  }
  function tellArea({ bbox }: uPlot): void {
    const next = { left: bbox.left / devicePixelRatio, width: bbox.width / devicePixelRatio }
    if (next.left === area.left && next.width === area.width) return
    area = next
    wish.onArea(next)
  }
  function nearest(left: number | undefined): number | null {
    if (left === undefined || left < 0) return null
    const seconds = chart.posToVal(left, 'x')
    let best: number | null = null
    rows.points.forEach((point, index) => {
      if (!point) return
      const distance = Math.abs(point.timeMs / 1000 - seconds)
      if (best === null || distance < Math.abs(rows.seconds[best]! - seconds)) best = index
    })
    return best
  }
  followDrag(chart.over, timeAt, wish.onDrag)
  chart.over.addEventListener('click', (event) => {
    const timeMs = timeAt(event.offsetX)
    if (!wish.onTap(timeMs)) wish.onPoint(nearest(event.offsetX), true, timeMs)
  })
  const scheme = matchMedia('(prefers-color-scheme: dark)')
  const redraw = () => chart.redraw()
  scheme.addEventListener('change', redraw)
  return {
    draw(next, from, to, behind) {
      rows = next
      backdrop = behind
      fromMs = from
      toMs = to
      chart.setData([next.seconds, next.line, next.bandLow, next.bandHigh, next.corrected])
    },
    resize: (width) => chart.setSize({ width, height: wish.height }),
    choose(index) {
      chosen = index
      chart.redraw(false)
    },
    close() {
      scheme.removeEventListener('change', redraw)
      chart.destroy()
    },
  }
}

const MINUTE = 60
const HOUR = 60 * MINUTE
const DAY = 24 * HOUR
const TIME_STEPS = [
  ...[1, 2, 5, 10, 15, 30],
  ...[1, 2, 5, 10, 15, 30].map((minutes) => minutes * MINUTE),
  ...[1, 2, 3, 6, 12].map((hours) => hours * HOUR),
  ...[1, 2, 7, 14, 28].map((days) => days * DAY),
]
/** 1, 2 and 5 of every power of ten, so that a tick needs no more digits than its step. */
const VALUE_STEPS = [-3, -2, -1, 0, 1, 2, 3, 4, 5].flatMap((order) =>
  [1, 2, 5].map((step) => Number((step * 10 ** order).toPrecision(1))),
)
