import type { StudyPair } from '../../contract/study.ts'
import { signed } from '../statistics/correlation-cautions.ts'
import { type PictureMaterial, zoneMarks } from './picture-material.ts'
import type { ScatterPicture } from './scatter.ts'
import type { MatrixPicture } from './scatter-matrix.ts'
import type { ScatterPoint } from './scatter-panel.ts'
import { nameWithUnit, shownUnit } from './shown-unit.ts'
import { commonest, measureWords } from './species-values.ts'

/** Panels smaller than this cannot be read, px. */
const NARROWEST_PANEL_PX = 105
const ROWS_AT_MOST = 6

const BARS = 'Level bars are 95 % intervals of the factor.'

/** The first pair of the factors and species chosen; or why there is none. */
export function scatterOfStudy(material: PictureMaterial): ScatterPicture | string {
  const factor = material.factors[0]?.name
  const species = commonest(material.species, 1)[0]?.name
  const pair = material.statistics.pairs.find((each) => each.factor === factor && each.species === species)
  if (!pair || pair.points.length === 0)
    return 'A scatter plot needs quadrats that have both a factor and a species.'
  return {
    factor: nameWithUnit(pair.factor, pair.factorUnit),
    species: pair.species,
    speciesAxis: measureWords(pair.measure).axis,
    points: pointsOf(pair, material),
    figures: figuresOf(pair),
    key: zoneMarks(material.summary).key,
    notes: [BARS],
  }
}

/** Factors as columns, the commonest species as rows; or why that cannot be drawn. */
export function matrixOfStudy(material: PictureMaterial, widthPx: number): MatrixPicture | string {
  const { statistics, measure } = material
  const columnsAtMost = Math.max(1, Math.floor((widthPx - 50) / NARROWEST_PANEL_PX))
  const factors = material.factors.slice(0, columnsAtMost)
  const species = commonest(material.species, ROWS_AT_MOST)
  if (factors.length === 0 || species.length === 0 || measure === null)
    return 'A scatter matrix needs factors and a table of species.'
  const cells = species.map(({ name }) =>
    factors.map((factor) => {
      const pair = statistics.pairs.find((each) => each.factor === factor.name && each.species === name)
      return pair
        ? { points: pointsOf(pair, material), figures: shortFigures(pair) }
        : { points: [], figures: 'n = 0' }
    }),
  )
  const left = [
    [material.factors.length - factors.length, 'factor', 'factors'],
    [material.species.length - species.length, 'species', 'species'],
  ] as const
  const more = left
    .filter(([count]) => count > 0)
    .map(([count, one, many]) => `${count} more ${count === 1 ? one : many}`)
  return {
    factors: factors.map(({ name, unit }) => nameWithUnit(name, unit)),
    species: species.map(({ name }) => name),
    speciesAxis: measureWords(measure).axis,
    cells,
    key: zoneMarks(material.summary).key,
    notes: [
      `Upright: ${measureWords(measure).axis}. ${BARS} Every mark is a quadrat.`,
      ...(more.length > 0 ? [`Not drawn: ${more.join(', ')}; choose them by name.`] : []),
    ],
  }
}

function pointsOf(pair: StudyPair, { summary }: PictureMaterial): ScatterPoint[] {
  const { factor: by } = shownUnit(pair.factorUnit)
  const { shapeOf } = zoneMarks(summary)
  return pair.points.map(({ quadrat, x, y, expanded }) => ({
    label: quadrat,
    x: x * by,
    y,
    expanded: expanded === null ? null : expanded * by,
    shape: shapeOf(quadrat),
  }))
}

/** “n = 10, ρ = 0.96” */
function shortFigures({ n, rho }: StudyPair): string {
  return rho === null ? `n = ${n}` : `n = ${n}, ρ = ${signed(rho)}`
}

/** “n = 10, ρ = 0.96 (95 % interval 0.83 to 0.99)”; ρ only where it is defined and not held back. */
function figuresOf({ n, rho, rhoLow, rhoHigh }: StudyPair): string {
  if (rho === null) return `n = ${n}`
  const interval =
    rhoLow === null || rhoHigh === null ? '' : ` (95 % interval ${signed(rhoLow)} to ${signed(rhoHigh)})`
  return `n = ${n}, ρ = ${signed(rho)}${interval}`
}
