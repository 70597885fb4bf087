import { tidyMetres } from './plan-faults.ts'
import type { SeededNumbers } from './seeded-numbers.ts'

/** The lower-left corner of a frame, metres from the corner of the plot. */
export interface Corner {
  xMetres: number
  yMetres: number
}

/** The places a frame may have: whole steps of its own side from a corner on, so that no two overlap. Metres. */
export interface Lattice {
  firstXMetres: number
  firstYMetres: number
  sideMetres: number
  columns: number
  rows: number
}

/**
 * Draws `count` places of a lattice, none twice, each equally likely. A place that was rejected is given up and the next
 * one drawn takes its turn, so that the other places stay where they are.
 * @param count  at most the places of the lattice that are not rejected
 * @param rejected  corners, in the order in which they were rejected
 * @returns corners in the order drawn
 */
export function drawPlaces(
  lattice: Lattice,
  count: number,
  rejected: readonly Corner[],
  numbers: SeededNumbers,
): Corner[] {
  const drawn = new Set<number>()
  const givenUp = new Set<number>()
  const cellsRejected = rejected.map((corner) => cellAt(lattice, corner))
  const next = (): number => {
    for (;;) {
      const column = numbers.wholeBelow(lattice.columns)
      const cell = numbers.wholeBelow(lattice.rows) * lattice.columns + column
      if (drawn.has(cell) || givenUp.has(cell)) continue
      drawn.add(cell)
      return cell
    }
  }
  const cells = Array.from({ length: count }, next)
  for (const cell of cellsRejected) {
    if (cell === null) continue
    givenUp.add(cell)
    const turn = cells.indexOf(cell)
    if (turn >= 0) cells[turn] = next()
  }
  return cells.map((cell) => cornerOf(lattice, cell))
}

/** How many places of the lattice are rejected, each counted once. */
export function countRejected(lattice: Lattice, rejected: readonly Corner[]): number {
  return new Set(rejected.map((corner) => cellAt(lattice, corner)).filter((cell) => cell !== null)).size
}

function cornerOf({ firstXMetres, firstYMetres, sideMetres, columns }: Lattice, cell: number): Corner {
  return {
    xMetres: tidyMetres(firstXMetres + (cell % columns) * sideMetres),
    yMetres: tidyMetres(firstYMetres + Math.floor(cell / columns) * sideMetres),
  }
}

/** @returns null when the corner is none of this lattice’s */
function cellAt(lattice: Lattice, { xMetres, yMetres }: Corner): number | null {
  const column = Math.round((xMetres - lattice.firstXMetres) / lattice.sideMetres)
  const row = Math.round((yMetres - lattice.firstYMetres) / lattice.sideMetres)
  if (column < 0 || row < 0 || column >= lattice.columns || row >= lattice.rows) return null
  const cell = row * lattice.columns + column
  const corner = cornerOf(lattice, cell)
  const isThere = Math.abs(corner.xMetres - xMetres) < 1e-3 && Math.abs(corner.yMetres - yMetres) < 1e-3
  return isThere ? cell : null
}
