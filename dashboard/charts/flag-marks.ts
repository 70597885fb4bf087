import type uPlot from 'uplot'
import type { ChartRows } from './chart-rows.ts'

/** Marks over the line: a hollow triangle for suspect, a cross for fail, a ring about the point chosen. */
export function drawFlagMarks(
  chart: uPlot,
  rows: ChartRows,
  factor: number,
  chosen: number | null,
  ink: (name: string) => string,
): void {
  const { ctx, bbox } = chart
  const scale = devicePixelRatio
  const [left, right] = [bbox.left, bbox.left + bbox.width]
  const [top, bottom] = [bbox.top + 6 * scale, bbox.top + bbox.height - 6 * scale]
  ctx.save()
  ctx.lineWidth = 2 * scale
  // a dashed line may have been drawn before
  ctx.setLineDash([])
  rows.points.forEach((point, index) => {
    const isFlagged = point?.flag === 3 || point?.flag === 4
    if (!point || (!isFlagged && index !== chosen)) return
    const x = chart.valToPos(point.timeMs / 1000, 'x', true)
    if (x < left - 1 || x > right + 1) return
    // a failed reading may lie far outside the chart, or have no value: its mark stays at the edge
    const wanted = point.value === null ? bottom : chart.valToPos(point.value * factor, 'y', true)
    const y = Math.min(bottom, Math.max(top, wanted))
    const size = 5.5 * scale
    ctx.beginPath()
    if (point.flag === 4) {
      ctx.strokeStyle = ink('--fail')
      ctx.moveTo(x - size, y - size)
      ctx.lineTo(x + size, y + size)
      ctx.moveTo(x + size, y - size)
      ctx.lineTo(x - size, y + size)
    } else if (point.flag === 3) {
      ctx.strokeStyle = ink('--suspect')
      ctx.fillStyle = ink('--paper')
      ctx.moveTo(x, y - size * 1.2)
      ctx.lineTo(x + size * 1.1, y + size * 0.8)
      ctx.lineTo(x - size * 1.1, y + size * 0.8)
      ctx.closePath()
      ctx.fill()
    }
    ctx.stroke()
    if (index === chosen) {
      ctx.beginPath()
      ctx.strokeStyle = ink('--margin')
      ctx.arc(x, y, 10 * scale, 0, 2 * Math.PI)
      ctx.stroke()
    }
  })
  ctx.restore()
}
