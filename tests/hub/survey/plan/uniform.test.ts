import { describe, expect, it } from 'vitest'
import { PlanRule } from '../../../../hub/contract/plan.ts'
import { drawPlan } from '../../../../hub/survey/plan/draw-plan.ts'

const plot = { id: 'P1', widthMetres: 10, heightMetres: 10 }
const SEEDS = 2000
const COUNT = 10

/** Corners of ten random quadrats for each of the seeds 1 … 2000. */
function corners(rule: object): { x: number; y: number }[] {
  return Array.from(
    { length: SEEDS },
    (_, index) =>
      drawPlan({ transects: [], plots: [plot] }, [PlanRule.parse({ ...rule, plot: 'P1', seed: index + 1 })])
        .drawn,
  )
    .flat()
    .map(({ quadrat }) => ({ x: quadrat.xMetres!, y: quadrat.yMetres! }))
}

function chiSquare(bins: readonly number[], cells: number): number {
  const counts = new Array<number>(cells).fill(0)
  for (const bin of bins) counts[bin]!++
  const expected = bins.length / cells
  return counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0)
}

/**
 * Upper critical value by Wilson & Hilferty 1931, Proc. Natl. Acad. Sci. 17, 684–688; within 0.1 % for 19 degrees of
 * freedom and more. z = ±3.2905 leaves 0.0005 on each side: significance 0.001, two-sided.
 */
function critical(freedom: number, z: number): number {
  const share = 2 / (9 * freedom)
  return freedom * (1 - share + z * Math.sqrt(share)) ** 3
}

describe('random placement is uniform (seeds 1 to 2000, ten quadrats each, significance 0.001 two-sided)', () => {
  const places = corners({ rule: 'random', count: COUNT })
  it('over all 400 places of a frame of 0.5 m in 10 m by 10 m', () => {
    expect(places).toHaveLength(SEEDS * COUNT)
    const statistic = chiSquare(
      places.map(({ x, y }) => Math.round(y / 0.5) * 20 + Math.round(x / 0.5)),
      400,
    )
    expect(statistic).toBeGreaterThan(critical(399, -3.2905))
    expect(statistic).toBeLessThan(critical(399, 3.2905))
  })
  it.each(['x', 'y'] as const)('over the 20 steps along %s', (axis) => {
    const statistic = chiSquare(
      places.map((place) => Math.round(place[axis] / 0.5)),
      20,
    )
    expect(statistic).toBeGreaterThan(critical(19, -3.2905))
    expect(statistic).toBeLessThan(critical(19, 3.2905))
  })
  it('for the first quadrat of each list alone, over quarters of the plot', () => {
    const first = places.filter((_, index) => index % COUNT === 0)
    const statistic = chiSquare(
      first.map(({ x, y }) => (x >= 5 ? 1 : 0) + (y >= 5 ? 2 : 0)),
      4,
    )
    // NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4: 3 degrees of freedom, 0.001 upper tail
    expect(statistic).toBeLessThan(16.266)
  })
  it('also when places are rejected: those that take their turn are uniform over what is left', () => {
    // the left half of the plot is a pond: 200 places rejected
    const rejected = Array.from({ length: 200 }, (_, index) => ({
      xMetres: (index % 10) * 0.5,
      yMetres: Math.floor(index / 10) * 0.5,
      reason: 'pond',
    }))
    const dry = corners({ rule: 'random', count: COUNT, rejected })
    expect(dry.every(({ x }) => x >= 5)).toBe(true)
    const statistic = chiSquare(
      dry.map(({ x, y }) => Math.round(y / 0.5) * 10 + Math.round((x - 5) / 0.5)),
      200,
    )
    expect(statistic).toBeGreaterThan(critical(199, -3.2905))
    expect(statistic).toBeLessThan(critical(199, 3.2905))
  })
  it('and within each of four parts', () => {
    const parts = corners({ rule: 'stratified', rows: 2, columns: 2, perPart: 2 })
    const statistic = chiSquare(
      parts.map(({ x, y }) => Math.round(y / 0.5) * 20 + Math.round(x / 0.5)),
      400,
    )
    // each part has its share exactly, so one degree of freedom a part is taken: 400 − 4
    expect(statistic).toBeGreaterThan(critical(396, -3.2905))
    expect(statistic).toBeLessThan(critical(396, 3.2905))
  })
})
