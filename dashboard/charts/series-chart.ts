import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import { type Backdrop, drawBackdrop, drawMarked, EMPTY_BACKDROP } from './backdrop.ts'
import { axesLook, seriesLook } from './chart-look.ts'
import type { ChartRows } from './chart-rows.ts'
import { followDrag } from './drag-span.ts'
import { drawFlagMarks } from './flag-marks.ts'
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
  const inks = new Map<string, string>()
  const ink = (name: string) => {
    const known = inks.get(name) ?? style.getPropertyValue(name).trim()
    inks.set(name, known)
    return known
  }
  // a finger leaves no pointer behind: only what was tapped is marked
  const hasHover = matchMedia('(hover: hover)').matches
  let rows: ChartRows = { seconds: [], line: [], bandLow: [], bandHigh: [], corrected: [], points: [] }
  let backdrop = EMPTY_BACKDROP
  let area: PlotArea = { left: 0, width: 0 }
  let chosen: number | null = null
  let [fromMs, toMs] = [0, 1]
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
      series: seriesLook(ink),
      bands: [{ series: [3, 2], fill: () => ink('--band') }],
      axes: axesLook(ink, wish),
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
  const redraw = () => {
    inks.clear()
    chart.redraw()
  }
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
