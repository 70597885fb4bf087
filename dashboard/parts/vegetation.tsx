import type { ComponentChildren } from 'preact'
import { type ZoneDrawn, zoneKind } from './zones.ts'

/** Pencil outlines, each drawn standing on y = 0 with its foot at x = 0. */
const TREE =
  'M-3 0C-2-14-4-22-3-30M3 0C2-12 4-22 2-31M-3-30C-14-26-24-32-22-42-32-48-27-62-17-62-16-74 0-78 7-71 17-76 27-66 24-57 31-50 26-38 17-38 13-29 5-28 2-31M-11-50C-8-54-4-54-1-51M6-58C10-61 14-60 15-56M-4-40C0-43 5-42 7-39'
const SHRUB =
  'M-1 0C-2-5-1-9-2-12M2 0C2-5 3-8 2-12M-2-12C-11-10-17-16-14-22-17-30-7-34-3-30 2-37 13-33 12-26 19-22 15-12 7-13 5-10 0-10-2-12M-6-20C-4-22-2-22 0-20'
const GRASS = 'M0 0C0-6 0-10 1-15M0 0C-2-6-5-9-8-11M0 0C2-6 5-9 9-10M-1 0C-4-3-8-5-12-5M1 0C4-3 8-5 11-4'
const HERB = 'M0 0C0-7-1-12 0-20M0-7C-4-8-7-11-8-14M0-9C4-10 6-13 7-17M0-20C-4-21-4-26 0-26 4-26 4-21 0-20'

const STANDS: Record<string, { shapes: string[]; everyPixels: number }> = {
  shade: { shapes: [TREE, TREE, SHRUB], everyPixels: 44 },
  edge: { shapes: [SHRUB, HERB, GRASS, SHRUB, GRASS], everyPixels: 30 },
  open: { shapes: [GRASS, HERB, GRASS, GRASS], everyPixels: 34 },
}

/** What grows along the tape, sketched: told from the zones, the same at every drawing. */
export function Vegetation(props: { zones: readonly ZoneDrawn[]; y: number; fromX: number; toX: number }) {
  const plants: ComponentChildren[] = []
  for (const zone of props.zones) {
    const stand = STANDS[zoneKind(zone)]
    if (!stand) continue
    const count = Math.max(1, Math.floor((zone.end - zone.start) / stand.everyPixels))
    for (let index = 0; index < count; index++) {
      const wobble = Math.sin(index * 12.9898 + zone.start) // a fixed scatter, not chance
      const x = zone.start + ((index + 0.5 + wobble * 0.22) * (zone.end - zone.start)) / count
      const scale = 0.86 + 0.2 * Math.abs(wobble)
      const shape = stand.shapes[index % stand.shapes.length]
      plants.push(
        <path
          key={`${zone.name}${index}`}
          d={shape}
          transform={`translate(${x} ${props.y}) scale(${scale})`}
        />,
      )
    }
  }
  return (
    <g class="pencil">
      <path class="ground" d={groundLine(props.fromX, props.toX, props.y)} />
      {plants}
    </g>
  )
}

function groundLine(fromX: number, toX: number, y: number): string {
  let line = `M${fromX} ${y}`
  for (let x = fromX; x < toX; x += 46) line += `q12 ${Math.sin(x) * 2.4} 23 0t${Math.min(23, toX - x)} 0`
  return line
}
