import type { TransectQuadrat } from '../../../hub/contract/quadrat-place.ts'

/** More arcs than this are a tangle. */
const ARCS_AT_MOST = 60

/**
 * The way from quadrat to quadrat as arcs below the tape, deeper for a longer way.
 * @param x  metres from the zero mark to px
 * @param y  where the arcs hang from, px
 * @param deepest  px
 * @returns SVG paths; none when there is nothing to draw or too much
 */
export function walkArcs(
  quadrats: readonly TransectQuadrat[],
  walk: readonly string[],
  x: (metres: number) => number,
  y: number,
  deepest: number,
): string[] {
  const places = new Map(quadrats.map(({ label, distanceMetres }) => [label, distanceMetres]))
  const stops = walk.flatMap((label) => places.get(label) ?? [])
  if (stops.length < 2 || stops.length > ARCS_AT_MOST) return []
  const longest = Math.max(...stops.map((stop, turn) => Math.abs(stop - (stops[turn - 1] ?? stop))))
  return stops.slice(1).flatMap((stop, index) => {
    const before = stops[index]!
    if (stop === before) return []
    // a cubic reaches three quarters of the way to its control points
    const depth = (deepest / 0.75) * (0.25 + (0.75 * Math.abs(stop - before)) / longest)
    const [from, to] = [x(before).toFixed(1), x(stop).toFixed(1)]
    return [`M${from} ${y}C${from} ${(y + depth).toFixed(1)} ${to} ${(y + depth).toFixed(1)} ${to} ${y}`]
  })
}
