import { levelAxis } from './axes.ts'
import { drawStrip, type StripPoint, stripMargin } from './factor-strip.ts'
import { drawKite, KITE_NAME_PX, type KiteStation } from './kite-strip.ts'
import { scaleOf } from './linear-scale.ts'
import { hatch, INK, PENCIL, SMALL_PX, WASH } from './look.ts'
import { drawNotes } from './notes.ts'
import type { Station } from './stations.ts'
import { line, svgFile, tag, words } from './svg-text.ts'
import { fitText, textWidth } from './text-width.ts'
import { ticksAround } from './ticks.ts'

export interface ProfilePicture {
  /** such as T1 */
  transect: string
  lengthMetres: number
  zones: readonly { name: string; fromMetres: number; toMetres: number }[]
  stations: readonly Station[]
  /** one entry a station */
  factors: readonly { name: string; points: readonly Omit<StripPoint, 'x'>[] }[]
  kites: readonly { species: string; values: readonly (number | null)[] }[]
  /** what full width of a kite means */
  kiteScale: { value: number; text: string; meaning: string } | null
  notes: readonly string[]
}

const ZONES_PX = 24
const STRIP_PX = 104
const KITE_PX = 54
const GAP_PX = 12
const RIGHT_PX = 22
const LABELS_PX = 18

/** Factors above and kites of the species below, on one distance axis, with the zones behind them. */
export function transectProfile(profile: ProfilePicture, widthPx: number, id: string): string {
  const margins = profile.factors.map(({ points }) =>
    stripMargin(points.map((point) => ({ ...point, x: 0 }))),
  )
  const kiteMargin = profile.kiteScale === null ? 0 : textWidth(profile.kiteScale.text, SMALL_PX) + 20
  const left = Math.max(44, kiteMargin, ...margins)
  const right = widthPx - RIGHT_PX
  const last = Math.max(profile.lengthMetres, ...profile.stations.map(({ distanceMetres }) => distanceMetres))
  const distance = scaleOf(0, last, left + 10, right, ticksAround(0, last, Math.floor((right - left) / 50)))
  const at = profile.stations.map(({ distanceMetres }) => distance.at(distanceMetres))
  const parts: string[] = []
  let top = ZONES_PX + 4
  for (const { name, points } of profile.factors) {
    const placed = points.map((point, index) => ({ ...point, x: at[index]! }))
    parts.push(drawStrip(name, placed, { left, right, top, heightPx: STRIP_PX }))
    top += STRIP_PX + GAP_PX
  }
  for (const [index, { species, values }] of profile.kites.entries()) {
    const stations = values.map((value, station): KiteStation => ({ x: at[station]!, value }))
    const fill = index % 2 === 0 ? `url(#${id}-lines)` : '#b9b9b9'
    const frame = { left, right, top, fullWidthPx: KITE_PX }
    parts.push(drawKite(species, stations, profile.kiteScale!, fill, frame))
    top += KITE_NAME_PX + KITE_PX + GAP_PX
  }
  const labels = quadratLabels(profile.stations, at, top, right + RIGHT_PX)
  const axisY = top + LABELS_PX
  const axis = levelAxis(
    distance,
    axisY,
    `Distance along ${fitText(profile.transect, widthPx / 3, 12)} (m)`,
    widthPx,
  )
  const notes = drawNotes(
    [...profile.notes, ...(profile.kiteScale ? [profile.kiteScale.meaning] : [])],
    left,
    axisY + 42,
    right - left,
  )
  return svgFile(
    {
      widthPx,
      heightPx: axisY + 42 + notes.heightPx + 6,
      title: `Profile along ${profile.transect}`,
      description: describe(profile),
    },
    tag('defs', {}, hatch(`${id}-lines`, 45, 5, '#fff')),
    drawZones(profile.zones, distance, ZONES_PX, axisY),
    ...parts,
    labels,
    axis,
    notes.svg,
  )
}

function drawZones(
  zones: ProfilePicture['zones'],
  distance: { at(metres: number): number; high: number },
  top: number,
  bottom: number,
): string {
  return zones
    .map(({ name, fromMetres, toMetres }, index) => {
      const from = distance.at(fromMetres)
      const to = distance.at(Math.min(toMetres, distance.high))
      if (to <= from) return ''
      const ground =
        index % 2 === 0
          ? tag('rect', { x: from, y: top, width: to - from, height: bottom - top, fill: WASH })
          : ''
      const edge =
        index === 0 ? '' : line(from, top - 8, from, bottom, { stroke: PENCIL, 'stroke-dasharray': '5 4' })
      const text = fitText(name, to - from - 6, 12)
      return (
        ground +
        edge +
        words((from + to) / 2, top - 8, text, { 'text-anchor': 'middle', 'font-weight': 'bold' })
      )
    })
    .join('')
}

/** Labels of the quadrats over the axis; where they would run into each other some are left out, their ticks stay. */
function quadratLabels(stations: readonly Station[], at: readonly number[], y: number, edge: number): string {
  let reached = 0
  return stations
    .map(({ labels }, index) => {
      const x = at[index]!
      const tick = line(x, y + LABELS_PX - 4, x, y + LABELS_PX, { stroke: INK, 'stroke-width': 1.6 })
      const text = labels.length > 2 ? `${labels[0]}–${labels.at(-1)}` : labels.join(', ')
      const half = textWidth(text, SMALL_PX) / 2
      if (x - half < reached || x + half > edge) return tick
      reached = x + half + 5
      return tick + words(x, y + 11, text, { 'text-anchor': 'middle', 'font-size': SMALL_PX })
    })
    .join('')
}

function describe({ transect, factors, kites, stations, notes }: ProfilePicture): string {
  const names = (of: readonly string[]) => (of.length === 0 ? 'none' : of.join('; '))
  return [
    `Along ${transect}, at ${stations.length} stations.`,
    `Factors from top to bottom: ${names(factors.map(({ name }) => name))}.`,
    `Kites from top to bottom: ${names(kites.map(({ species }) => species))}.`,
    ...notes,
  ].join(' ')
}
