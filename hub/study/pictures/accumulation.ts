import { levelAxis, roomForTicks, uprightAxis } from './axes.ts'
import { scaleFor, scaleOf } from './linear-scale.ts'
import { BLUE, mark, PENCIL, SMALL_PX, WASH } from './look.ts'
import { drawNotes } from './notes.ts'
import { line, svgFile, tag, through, words } from './svg-text.ts'
import { fitText, wrapText } from './text-width.ts'
import { ticksAround } from './ticks.ts'

export interface AccumulationPicture {
  factors: readonly {
    /** with its unit */
    name: string
    /** of the first 1, 2, 3 … quadrats */
    means: readonly number[]
    /** share of the final mean that counts as settled, such as 0.05 */
    tolerance: number
    /** number of quadrats from which on it stays within that; null: it has not settled */
    settledAt: number | null
  }[]
  notes: readonly string[]
}

/** narrower panels cannot be read */
const NARROWEST_PX = 235
const PANEL_PX = 236
const PLOT_TOP_PX = 50
const PLOT_BOTTOM_PX = 176

/** Have enough quadrats been measured? The mean after each further one, and the band about the last in which it may wander. */
export function accumulation({ factors, notes }: AccumulationPicture, widthPx: number): string {
  const columns = Math.max(1, Math.min(factors.length, Math.floor(widthPx / NARROWEST_PX)))
  const panelPx = (widthPx - 8) / columns
  const panels = factors.map((factor, index) =>
    drawPanel(factor, 4 + (index % columns) * panelPx, Math.floor(index / columns) * PANEL_PX, panelPx - 8),
  )
  const bottom = Math.ceil(factors.length / columns) * PANEL_PX
  const said = drawNotes(notes, 12, bottom, widthPx - 24)
  return svgFile(
    {
      widthPx,
      heightPx: bottom + said.heightPx + 6,
      title: 'Running means',
      description: [...factors.map((factor) => `${factor.name}: ${verdict(factor)}.`), ...notes].join(' '),
    },
    ...panels,
    said.svg,
  )
}

type PanelFactor = AccumulationPicture['factors'][number]

function drawPanel(factor: PanelFactor, x0: number, top: number, widthPx: number): string {
  const { name, means, tolerance } = factor
  const final = means.at(-1)!
  const [low, high] = [final - tolerance * Math.abs(final), final + tolerance * Math.abs(final)]
  const [plotTop, plotBottom] = [top + PLOT_TOP_PX, top + PLOT_BOTTOM_PX]
  const y = scaleFor([...means, low, high], plotBottom, plotTop, 5)
  const left = x0 + Math.max(40, roomForTicks(y))
  const right = x0 + widthPx - 8
  const ticks = ticksAround(0, means.length, 7).filter((tick) => tick >= 1 && Number.isInteger(tick))
  const x = scaleOf(Math.min(1, means.length - 1), means.length, left + 8, right - 4, ticks)
  const points = means.map((mean, index) => ({ x: x.at(index + 1), y: y.at(mean) }))
  const edge = { stroke: PENCIL, 'stroke-dasharray': '4 3' }
  return [
    ...wrapText(name, widthPx - 8, 12)
      .slice(0, 1)
      .map((text) => words(x0 + 4, top + 16, text, { 'font-weight': 'bold' })),
    words(x0 + 4, top + 32, fitText(verdict(factor), widthPx - 8, SMALL_PX), { 'font-size': SMALL_PX }),
    tag('rect', { x: left, y: y.at(high), width: right - left, height: y.at(low) - y.at(high), fill: WASH }),
    line(left, y.at(high), right, y.at(high), edge),
    line(left, y.at(low), right, y.at(low), edge),
    uprightAxis(y, left),
    levelAxis(x, plotBottom, 'Number of quadrats', right + 8),
    tag('path', { d: through(points), fill: 'none', stroke: BLUE, 'stroke-width': 1.4 }),
    ...points.map((point) => mark('disc', point.x, point.y, 2.6)),
  ].join('')
}

function verdict({ means, settledAt, tolerance }: PanelFactor): string {
  const within = `within ${Math.round(100 * tolerance)} %`
  return settledAt === null
    ? `not settled ${within} after ${means.length} quadrats`
    : `settled ${within} from ${settledAt} of ${means.length} on`
}
