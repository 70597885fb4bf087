import type { PlanRule } from '../../contract/plan.ts'
import type { Plot, Quadrat } from '../../contract/survey.ts'
import { checkMetres, countOf, framesAlong, type SayFault, tidyMetres } from './plan-faults.ts'
import { type Corner, countRejected, drawPlaces, type Lattice } from './random-places.ts'
import { seededNumbers } from './seeded-numbers.ts'

type Rule<Name extends PlanRule['rule']> = Extract<PlanRule, { rule: Name }>

/** Random coordinates: x = side · floor(u · W/side), y likewise, no place twice. */
export function drawRandom(plot: Plot, rule: Rule<'random'>, fault: SayFault): Quadrat[] {
  if (!fits(plot, rule.sideMetres, fault)) return []
  const lattice = latticeOf(plot.widthMetres, plot.heightMetres, rule.sideMetres)
  const places = lattice.columns * lattice.rows - countRejected(lattice, rule.rejected)
  if (rule.count > places) {
    fault('count', tooMany(rule.count, places, rule.sideMetres, `plot "${plot.id}"`))
    return []
  }
  const corners = drawPlaces(lattice, rule.count, rule.rejected, seededNumbers(rule.seed))
  return labelled(plot, rule, corners)
}

/** Equal parts, the same number of random places in each, numbered part by part from the corner on, row by row. */
export function drawStratified(plot: Plot, rule: Rule<'stratified'>, fault: SayFault): Quadrat[] {
  if (!fits(plot, rule.sideMetres, fault)) return []
  const width = plot.widthMetres / rule.columns
  const height = plot.heightMetres / rule.rows
  const part = { columns: framesAlong(width, rule.sideMetres), rows: framesAlong(height, rule.sideMetres) }
  if (part.columns === 0 || part.rows === 0) {
    fault(
      part.columns === 0 ? 'columns' : 'rows',
      `a part of ${tidyMetres(width)} m by ${tidyMetres(height)} m is smaller than a frame of ${rule.sideMetres} m; plot "${plot.id}" holds at most ${countOf(framesAlong(plot.widthMetres, rule.sideMetres), 'column')} and ${countOf(framesAlong(plot.heightMetres, rule.sideMetres), 'row')}`,
    )
    return []
  }
  const corners: Corner[] = []
  for (let index = 0; index < rule.rows * rule.columns; index++) {
    const x = (index % rule.columns) * width
    const y = Math.floor(index / rule.columns) * height
    const lattice = latticeOf(width, height, rule.sideMetres, x, y)
    const places = lattice.columns * lattice.rows - countRejected(lattice, rule.rejected)
    if (rule.perPart > places) {
      fault('perPart', tooMany(rule.perPart, places, rule.sideMetres, 'one part'))
      return []
    }
    corners.push(...drawPlaces(lattice, rule.perPart, rule.rejected, seededNumbers(rule.seed, index + 1)))
  }
  return labelled(plot, rule, corners)
}

/** Rows and columns at equal distances, as many as fit, numbered row by row. */
export function drawGrid(plot: Plot, rule: Rule<'grid'>, fault: SayFault): Quadrat[] {
  const { firstXMetres, firstYMetres, stepXMetres, stepYMetres } = rule
  const isFine = checkMetres({ firstXMetres, firstYMetres }, 'zero', fault)
  if (!checkMetres({ stepXMetres, stepYMetres }, 'above zero', fault) || !isFine) return []
  if (!fits(plot, rule.sideMetres, fault)) return []
  let isApart = true
  for (const [field, step] of Object.entries({ stepXMetres, stepYMetres }))
    if (step < rule.sideMetres - 1e-9) {
      isApart = false
      fault(field, `frames of ${rule.sideMetres} m would overlap every ${step} m`)
    }
  if (!isApart) return []
  const along = (length: number, first: number, step: number) =>
    Math.max(0, framesAlong(length - rule.sideMetres - first + step, step))
  const columns = along(plot.widthMetres, firstXMetres, stepXMetres)
  const rows = along(plot.heightMetres, firstYMetres, stepYMetres)
  if (columns === 0)
    fault('firstXMetres', `a frame at ${firstXMetres} m does not fit into ${plot.widthMetres} m`)
  if (rows === 0)
    fault('firstYMetres', `a frame at ${firstYMetres} m does not fit into ${plot.heightMetres} m`)
  const corners = Array.from({ length: Math.min(columns * rows, MORE_THAN_ANY) }, (_, index) => ({
    xMetres: tidyMetres(firstXMetres + (index % columns) * stepXMetres),
    yMetres: tidyMetres(firstYMetres + Math.floor(index / columns) * stepYMetres),
  }))
  return labelled(plot, rule, corners)
}

/** One more than a survey may have, so that the limit is told without drawing a million squares. */
const MORE_THAN_ANY = 10_001

function fits(plot: Plot, sideMetres: number, fault: SayFault): boolean {
  if (!checkMetres({ sideMetres }, 'above zero', fault)) return false
  if (framesAlong(plot.widthMetres, sideMetres) > 0 && framesAlong(plot.heightMetres, sideMetres) > 0)
    return true
  fault(
    'sideMetres',
    `a frame of ${sideMetres} m is larger than plot "${plot.id}" (${plot.widthMetres} m by ${plot.heightMetres} m)`,
  )
  return false
}

function tooMany(wished: number, places: number, sideMetres: number, where: string): string {
  return places <= 0
    ? `no place is left in ${where}: all are rejected`
    : `${countOf(wished, 'quadrat')} of ${sideMetres} m do not fit into ${where}; ${places} do`
}

function latticeOf(width: number, height: number, side: number, x = 0, y = 0): Lattice {
  return {
    firstXMetres: x,
    firstYMetres: y,
    sideMetres: side,
    columns: framesAlong(width, side),
    rows: framesAlong(height, side),
  }
}

function labelled(
  plot: Plot,
  rule: Rule<'random'> | Rule<'stratified'> | Rule<'grid'>,
  corners: readonly Corner[],
): Quadrat[] {
  return corners.map((corner, index) => ({
    label: `${rule.prefix}${index + 1}`,
    plot: plot.id,
    ...corner,
    sideMetres: rule.sideMetres,
    gridDivisions: rule.gridDivisions ?? 10,
  }))
}
