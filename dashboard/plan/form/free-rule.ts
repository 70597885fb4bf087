import { isInPlot, isOnTransect } from '../../../hub/contract/quadrat-place.ts'
import type { Plot, Quadrat, SurveyFile } from '../../../hub/contract/survey.ts'
import { freshRule, type RuleForm } from './plan-form.ts'

interface Square {
  /** its middle, metres */
  x: number
  y: number
  side: number
}

/** Firsts are tried this far apart, metres. */
const STEP = 0.25
const TOUCH_METRES = 1e-6

/**
 * A further rule that lays no quadrat on one that is there: between those of a tape where there is room, else as a grid
 * in a plot. Where there is none, the first tape or plot as a fresh rule has it, and the hub warns.
 * @param ground  tapes and plots that can be drawn
 */
export function freeRule(
  ground: { transects: SurveyFile['transects']; plots: readonly Plot[] },
  quadrats: readonly Quadrat[],
  seed: number,
): RuleForm {
  const { transects, plots } = ground
  const places = { transect: transects[0]?.id ?? '', plot: plots[0]?.id ?? '' }
  const along = { ...freshRule('along', seed), ...places }
  for (const { id, lengthMetres } of transects) {
    const there = quadrats
      .filter(isOnTransect)
      .filter(({ transect }) => transect === id)
      .map(({ distanceMetres, offsetMetres = 0, sideMetres }) => ({
        x: distanceMetres,
        y: offsetMetres,
        side: sideMetres,
      }))
    const [every, side] = [Number(along.everyMetres), Number(along.sideMetres)]
    const first = firstsFrom(Number(along.firstMetres), every, lengthMetres).find((first) =>
      steps(first, every, lengthMetres).every((x) => isFree({ x, y: 0, side }, there)),
    )
    if (first !== undefined) return { ...along, transect: id, firstMetres: String(first) }
  }
  const grid = { ...freshRule('grid', seed), ...places }
  for (const plot of plots) {
    const rule = freeGrid(grid, plot, quadrats)
    if (rule) return rule
  }
  return transects.length > 0 ? along : { ...grid, rule: 'random' }
}

function freeGrid(grid: RuleForm, plot: Plot, quadrats: readonly Quadrat[]): RuleForm | null {
  const there = quadrats
    .filter(isInPlot)
    .filter((quadrat) => quadrat.plot === plot.id)
    .map(({ xMetres, yMetres, sideMetres }) => ({
      x: xMetres + sideMetres / 2,
      y: yMetres + sideMetres / 2,
      side: sideMetres,
    }))
  const side = Number(grid.sideMetres)
  const [stepX, stepY] = [Number(grid.stepXMetres), Number(grid.stepYMetres)]
  const [widest, highest] = [plot.widthMetres - side, plot.heightMetres - side]
  for (const firstY of firstsFrom(Number(grid.firstYMetres), stepY, highest))
    for (const firstX of firstsFrom(Number(grid.firstXMetres), stepX, widest)) {
      const isAllFree = steps(firstY, stepY, highest).every((y) =>
        steps(firstX, stepX, widest).every((x) => isFree({ x: x + side / 2, y: y + side / 2, side }, there)),
      )
      if (isAllFree)
        return { ...grid, plot: plot.id, firstXMetres: String(firstX), firstYMetres: String(firstY) }
    }
  return null
}

/** Where a row may begin: at the usual place, half a step on, then wherever else within a step. */
function firstsFrom(usual: number, every: number, end: number): number[] {
  const turns = Math.floor(every / STEP + 1e-9)
  const others = Array.from({ length: turns }, (_, turn) => (usual + turn * STEP) % every)
  return [usual, usual + every / 2, ...others].filter((first) => first <= end)
}

function steps(first: number, every: number, end: number): number[] {
  return Array.from(
    { length: Math.floor((end - first) / every + 1e-9) + 1 },
    (_, step) => first + step * every,
  )
}

function isFree(square: Square, there: readonly Square[]): boolean {
  return !there.some((other) => {
    const reach = (square.side + other.side) / 2 - TOUCH_METRES
    return Math.abs(square.x - other.x) < reach && Math.abs(square.y - other.y) < reach
  })
}
