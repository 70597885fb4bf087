import { levelAxis, roomForTicks, uprightAxis } from './axes.ts'
import { scaleFor } from './linear-scale.ts'
import type { MarkShape } from './look.ts'
import { drawMarkKey } from './mark-key.ts'
import { drawNotes } from './notes.ts'
import { type ScatterPoint, scatterLabels, scatterPoints, scatterSpan } from './scatter-panel.ts'
import { svgFile, words } from './svg-text.ts'
import { fitText } from './text-width.ts'

export interface ScatterPicture {
  /** with its unit */
  factor: string
  species: string
  /** what of the species stands on the upright axis, with its unit */
  speciesAxis: string
  points: readonly ScatterPoint[]
  /** n, and ρ unless it is held back */
  figures: string
  key: readonly { shape: MarkShape; text: string }[]
  notes: readonly string[]
}

/** One factor beside one species: every quadrat a labelled point, with the 95 % interval of the factor. */
export function scatter(picture: ScatterPicture, widthPx: number): string {
  const top = 46
  const height = Math.round(Math.min(420, Math.max(240, widthPx * 0.55)))
  const bottom = top + height
  const span = scatterSpan(picture.points)
  const y = scaleFor(span.y, bottom - 8, top + 6, 7)
  const left = Math.max(40, roomForTicks(y) + 4)
  const right = widthPx - 24
  const x = scaleFor(span.x, left + 8, right, Math.max(3, Math.floor((right - left) / 70)))
  const key = drawMarkKey(picture.key, left, bottom + 40, right - left)
  const notes = drawNotes(picture.notes, left, bottom + 42 + key.heightPx, right - left)
  return svgFile(
    {
      widthPx,
      heightPx: bottom + 48 + key.heightPx + notes.heightPx,
      title: `${picture.species} beside ${picture.factor}`,
      description: [`${picture.points.length} quadrats. ${picture.figures}.`, ...picture.notes].join(' '),
    },
    words(8, 16, fitText(`${picture.species}: ${picture.speciesAxis}`, widthPx - 16, 12), {
      'font-weight': 'bold',
    }),
    words(8, 34, fitText(picture.figures, widthPx - 16, 12)),
    uprightAxis(y, left, right),
    levelAxis(x, bottom, fitText(picture.factor, right - left, 12), widthPx),
    scatterPoints(picture.points, x, y, 4),
    scatterLabels(picture.points, x, y, { left, right: widthPx, top: 36, bottom: bottom + 2 }),
    key.svg,
    notes.svg,
  )
}
