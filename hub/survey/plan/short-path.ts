import { isInPlot, metresBetween } from '../../contract/quadrat-place.ts'
import type { Quadrat } from '../../contract/survey.ts'

/**
 * A short way over the quadrats of one plot: from the one nearest the corner always to the nearest left, then stretches
 * of it turned round as long as that shortens it. Not always the shortest; the same for the same quadrats.
 * @see Croes 1958, Oper. Res. 6, 791–812 (turning stretches round, 2-opt)
 */
export function shortPath(quadrats: readonly Quadrat[]): Quadrat[] {
  if (quadrats.length > NEAREST_FIRST_AT_MOST) return [...quadrats]
  const left = [...quadrats]
  const path: Quadrat[] = []
  while (left.length > 0) {
    const here = path.at(-1)
    const away = (quadrat: Quadrat) => (here ? (metresBetween(here, quadrat) ?? 0) : fromCorner(quadrat))
    const next = left.reduce((best, quadrat) => (away(quadrat) < away(best) ? quadrat : best))
    left.splice(left.indexOf(next), 1)
    path.push(next)
  }
  return path.length > TURNED_AT_MOST ? path : turnStretches(path)
}

/** More than a class can visit: turning stretches takes too long, */
const TURNED_AT_MOST = 300
/** … and here even looking for the nearest. */
const NEAREST_FIRST_AT_MOST = 2000

function turnStretches(path: Quadrat[]): Quadrat[] {
  const metres = (one: Quadrat | undefined, other: Quadrat | undefined) =>
    one && other ? (metresBetween(one, other) ?? 0) : 0
  for (let isShorter = true; isShorter; ) {
    isShorter = false
    for (let from = 0; from < path.length - 1; from++)
      for (let to = from + 1; to < path.length; to++) {
        const before = metres(path[from - 1], path[from]) + metres(path[to], path[to + 1])
        const after = metres(path[from - 1], path[to]) + metres(path[from], path[to + 1])
        if (after < before - 1e-9) {
          path.splice(from, to - from + 1, ...path.slice(from, to + 1).reverse())
          isShorter = true
        }
      }
  }
  return path
}

function fromCorner(quadrat: Quadrat): number {
  return isInPlot(quadrat) ? Math.hypot(quadrat.xMetres, quadrat.yMetres) : 0
}
