import type uPlot from 'uplot'
import type { TimeSpan } from '../../hub/contract/reading.ts'

/** What lies behind a line: nights, spans decided on by hand, moments at which something was done to the probe. */
export interface Backdrop {
  nights: readonly TimeSpan[]
  decided: readonly (TimeSpan & { action: 'exclude' | 'accept' })[]
  marksMs: readonly number[]
  /** marked by the person who looks; a span of no length is its first end */
  marked: TimeSpan | null
}

export const EMPTY_BACKDROP: Backdrop = { nights: [], decided: [], marksMs: [], marked: null }

type Ink = (name: string) => string

interface Plot {
  ctx: CanvasRenderingContext2D
  /** canvas px of one CSS px */
  scale: number
  top: number
  bottom: number
  /** where a span lies, cut to the plot; null outside it */
  edges(span: TimeSpan): [left: number, right: number] | null
}

function plotOf(chart: uPlot): Plot {
  const { left, top, width, height } = chart.bbox
  const x = (ms: number) => Math.min(left + width, Math.max(left, chart.valToPos(ms / 1000, 'x', true)))
  return {
    ctx: chart.ctx,
    scale: devicePixelRatio,
    top,
    bottom: top + height,
    edges({ fromMs, toMs }) {
      const [from, to] = [x(fromMs), x(toMs)]
      return to > from ? [from, to] : null
    },
  }
}

/** Under the rules and the line. */
export function drawBackdrop(chart: uPlot, backdrop: Backdrop, ink: Ink): void {
  const plot = plotOf(chart)
  plot.ctx.save()
  plot.ctx.setLineDash([])
  for (const night of backdrop.nights) drawNight(plot, night, ink)
  for (const decided of backdrop.decided)
    if (decided.action === 'exclude') drawLeftOut(plot, decided, ink)
    else drawAccepted(plot, decided, ink)
  plot.ctx.strokeStyle = ink('--pencil')
  plot.ctx.setLineDash([2 * plot.scale, 3 * plot.scale])
  plot.ctx.lineWidth = 1.5 * plot.scale
  for (const ms of backdrop.marksMs) {
    const at = plot.edges({ fromMs: ms, toMs: Number.POSITIVE_INFINITY })
    if (at && at[0] > chart.bbox.left) line(plot, at[0], plot.top, at[0], plot.bottom)
  }
  plot.ctx.restore()
}

/** Over the line, so that it is seen while it is drawn. */
export function drawMarked(chart: uPlot, { marked }: Backdrop, ink: Ink): void {
  if (!marked) return
  const plot = plotOf(chart)
  const { ctx, scale, top, bottom } = plot
  const isEdge = marked.toMs <= marked.fromMs
  const at = plot.edges(isEdge ? { fromMs: marked.fromMs, toMs: Number.POSITIVE_INFINITY } : marked)
  if (!at) return
  ctx.save()
  ctx.setLineDash([])
  if (!isEdge) {
    ctx.globalAlpha = 0.3
    ctx.fillStyle = ink('--tape')
    ctx.fillRect(at[0], top, at[1] - at[0], bottom - top)
    ctx.globalAlpha = 1
  }
  ctx.strokeStyle = ink('--ink')
  ctx.lineWidth = 2 * scale
  for (const x of isEdge ? [at[0]] : at) line(plot, x, top, x, bottom)
  ctx.restore()
}

function drawNight(plot: Plot, night: TimeSpan, ink: Ink): void {
  const at = plot.edges(night)
  if (!at) return
  const { ctx, scale, top, bottom } = plot
  ctx.fillStyle = ink('--night')
  ctx.fillRect(at[0], top, at[1] - at[0], bottom - top)
  if (at[1] - at[0] < 26 * scale) return
  // a waning moon, for those who do not see the shade
  const [x, y, r] = [at[0] + 13 * scale, top + 11 * scale, 5.5 * scale]
  ctx.fillStyle = ink('--pencil')
  ctx.beginPath()
  ctx.arc(x, y, r, -Math.PI / 2, Math.PI / 2, true)
  ctx.quadraticCurveTo(x - r * 0.45, y, x, y - r)
  ctx.fill()
}

function drawLeftOut(plot: Plot, span: TimeSpan, ink: Ink): void {
  const at = plot.edges(span)
  if (!at) return
  const { ctx, scale, top, bottom } = plot
  ctx.save()
  ctx.beginPath()
  ctx.rect(at[0], top, at[1] - at[0], bottom - top)
  ctx.clip()
  ctx.strokeStyle = ink('--pencil-soft')
  ctx.lineWidth = 1.2 * scale
  const height = bottom - top
  for (let x = at[0] - height; x < at[1]; x += 9 * scale) line(plot, x, bottom, x + height, top)
  ctx.strokeStyle = ink('--ink')
  ctx.lineWidth = 2 * scale
  for (const x of at) line(plot, x, top, x, bottom)
  ctx.restore()
}

/** A rail along the foot with ticks, as when a list is gone through by hand. */
function drawAccepted(plot: Plot, span: TimeSpan, ink: Ink): void {
  const at = plot.edges(span)
  if (!at) return
  const { ctx, scale, bottom } = plot
  const y = bottom - 4 * scale
  ctx.strokeStyle = ink('--good')
  ctx.lineWidth = 2 * scale
  line(plot, at[0], y, at[1], y)
  for (let x = at[0] + 6 * scale; x < at[1] - 4 * scale; x += 22 * scale) {
    ctx.beginPath()
    ctx.moveTo(x - 4 * scale, y - 7 * scale)
    ctx.lineTo(x - 1 * scale, y - 4 * scale)
    ctx.lineTo(x + 5 * scale, y - 12 * scale)
    ctx.stroke()
  }
}

function line({ ctx }: Plot, fromX: number, fromY: number, toX: number, toY: number): void {
  ctx.beginPath()
  ctx.moveTo(fromX, fromY)
  ctx.lineTo(toX, toY)
  ctx.stroke()
}
