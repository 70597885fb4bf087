import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Quadrat } from '../../../../hub/contract/survey.ts'
import { halvesInTurn, outAndBack, shortestBrokenWay } from '../../../../hub/survey/plan/out-and-back.ts'
import { shareAmongGroups } from '../../../../hub/survey/plan/share-among-groups.ts'
import { shortPath } from '../../../../hub/survey/plan/short-path.ts'
import { adviseWalk, judgeWalk, proposeWalk } from '../../../../hub/survey/plan/walk.ts'
import { followsOrder, walkingMetres } from '../../../../hub/survey/plan/walk-measure.ts'

const onTape = (distanceMetres: number, label: string, offsetMetres?: number): Quadrat => ({
  label,
  transect: 'T1',
  distanceMetres,
  ...(offsetMetres === undefined ? {} : { offsetMetres }),
  sideMetres: 0.5,
  gridDivisions: 10,
})
const inPlot = (xMetres: number, yMetres: number, label: string): Quadrat => ({
  label,
  plot: 'P1',
  xMetres,
  yMetres,
  sideMetres: 0.5,
  gridDivisions: 10,
})
/** one every 2 m from 1 m on */
const tape = (count: number) =>
  Array.from({ length: count }, (_, index) => onTape(1 + 2 * index, `Q${index + 1}`))

describe('followsOrder', () => {
  it('is Spearman’s rho of turn and place: the published cases with turns 1 … n as one list', () => {
    // tests/reference/stats-spearman-cases.json: scipy and R agree; x sorted into turns
    const { cases } = JSON.parse(readFileSync('tests/reference/stats-spearman-cases.json', 'utf8')) as {
      cases: { id: string; x: number[]; y: number[]; rho: number | null }[]
    }
    const usable = cases.filter(
      ({ x, rho }) => new Set(x).size === x.length && x.length >= 3 && typeof rho === 'number',
    )
    expect(usable.length).toBeGreaterThanOrEqual(3)
    for (const { id, x, y, rho } of usable) {
      const places = x
        .map((turn, index) => ({ turn, place: y[index]! }))
        .sort((one, other) => one.turn - other.turn)
        .map(({ place }) => place)
      expect([id, followsOrder(places)]).toEqual([id, expect.closeTo(rho!, 9)])
    }
  })
  it('is 1 on a sweep, −1 on the way back, and not told from two places or from one', () => {
    expect(followsOrder([0, 1, 2, 3])).toBe(1)
    expect(followsOrder([3, 2, 1, 0])).toBe(-1)
    expect(followsOrder([0, 1])).toBeNull()
    expect(followsOrder([2, 2, 2])).toBeNull()
    expect(followsOrder([])).toBeNull()
  })
  it('works by hand for out on even and back on odd stations of eight', () => {
    // turns 1…8 at stations 1 3 5 7 8 6 4 2: Σd² = 0+1+4+9+9+0+9+36 = 68, 1 − 6·68/(8·63) = 0.190
    const { order } = outAndBack(8)
    expect(order).toEqual([0, 2, 4, 6, 7, 5, 3, 1])
    expect(followsOrder(order)).toBeCloseTo(1 - (6 * 68) / (8 * 63), 12)
  })
})

describe('shortestBrokenWay', () => {
  it.each([4, 5, 6, 7, 8, 10, 13, 20, 41, 200])(
    'visits %i stations once each, with |r| at most 0.3',
    (count) => {
      const places = Array.from({ length: count }, (_, index) => index * 0.5)
      const way = shortestBrokenWay(
        places,
        places.map(() => 1),
      )!
      expect([...way.order].sort((one, other) => one - other)).toEqual(places.map((_, index) => index))
      expect(Math.abs(followsOrder(way.order)!)).toBeLessThanOrEqual(0.3)
    },
  )
  it('walks less than out and back, and than halves in turn', () => {
    const metres = (order: readonly number[]) =>
      order.reduce((sum, place, turn) => sum + (turn === 0 ? 0 : Math.abs(place - order[turn - 1]!)), 0)
    for (const count of [6, 8, 10, 20]) {
      const places = Array.from({ length: count }, (_, index) => index)
      const best = metres(
        shortestBrokenWay(
          places,
          places.map(() => 1),
        )!.order,
      )
      expect(best).toBeLessThanOrEqual(metres(outAndBack(count).order))
      expect(best).toBeLessThan(metres(halvesInTurn(count).order))
    }
  })
  it('finds the least of all 40,320 orders of eight stations', () => {
    const places = Array.from({ length: 8 }, (_, index) => index)
    const metres = (order: readonly number[]) =>
      order.slice(1).reduce((sum, place, index) => sum + Math.abs(place - order[index]!), 0)
    let least = Number.POSITIVE_INFINITY
    const go = (order: number[], left: number[]) => {
      if (left.length === 0 && Math.abs(followsOrder(order)!) <= 0.3) least = Math.min(least, metres(order))
      for (const place of left)
        go(
          [...order, place],
          left.filter((each) => each !== place),
        )
    }
    go([], places)
    expect(
      metres(
        shortestBrokenWay(
          places,
          places.map(() => 1),
        )!.order,
      ),
    ).toBe(least)
  })
  it('has none for three stations or fewer', () => {
    expect(shortestBrokenWay([0, 1, 2], [1, 1, 1])).toBeNull()
    expect(shortestBrokenWay([], [])).toBeNull()
  })
})

describe('adviseWalk', () => {
  it('warns of one sweep, tells its metres, and proposes an order that breaks the tie', () => {
    const { planned, warnings, proposed, others } = adviseWalk(tape(8))
    expect(planned.metres).toBe(14)
    expect(planned.strongest).toBe(1)
    expect(warnings).toEqual([expect.stringContaining('On T1 the order of visiting follows the tape')])
    expect(proposed!.strongest).toBeLessThanOrEqual(0.3)
    expect([...proposed!.labels].sort()).toEqual(planned.labels)
    expect(others.map(({ metres }) => metres)).toEqual(
      [...others.map(({ metres }) => metres)].sort((a, b) => a - b),
    )
  })
  it('says nothing of an order that is broken already, at the limit and beyond it', () => {
    const { proposed } = adviseWalk(tape(8))
    const better = proposed!.labels.map((label) => tape(8).find((quadrat) => quadrat.label === label)!)
    expect(adviseWalk(better).warnings).toEqual([])
    expect(adviseWalk(better).proposed).toBeNull()
    // 1 2 5 3 4: Σd² = 0+0+4+1+1 = 6, r = 1 − 36/120 = 0.7; 1 4 3 2 5: Σd² = 8, r = 0.6, which is not above 0.6
    const byPlace = (...places: number[]) => adviseWalk(places.map((place) => onTape(place, `Q${place}`)))
    expect(byPlace(1, 2, 5, 3, 4).warnings).toHaveLength(1)
    expect(byPlace(1, 4, 3, 2, 5).warnings).toHaveLength(0)
  })
  it('takes the frames of a station together, and leaves lifted ones out', () => {
    const belt = [0, 5, 10, 15, 20].flatMap((metres, station) =>
      [-0.5, 0, 0.5].map((offset, place) => onTape(metres, `Q${station + 1}${'abc'[place]}`, offset)),
    )
    const { proposed } = adviseWalk(belt)
    const stations = proposed!.labels.map((label) => label.slice(0, 2))
    expect(stations.filter((station, turn) => station !== stations[turn - 1])).toHaveLength(5)
    const lifted = { ...tape(5)[0]!, lifted: { at: '2026-06-12T09:00:00Z' } }
    expect(adviseWalk([lifted, ...tape(5).slice(1)]).planned.labels).toEqual(['Q2', 'Q3', 'Q4', 'Q5'])
  })
  it('does not count the way between two tapes, and judges each by itself', () => {
    const other = tape(4).map((quadrat) => ({ ...quadrat, label: `R${quadrat.label}`, transect: 'T2' }))
    const { planned, warnings } = adviseWalk([...tape(4), ...other])
    expect(planned.metres).toBe(12)
    expect(warnings).toHaveLength(2)
  })
  it('has nothing to say about no quadrats and one', () => {
    expect(adviseWalk([]).proposed).toBeNull()
    expect(adviseWalk(tape(1))).toMatchObject({ warnings: [], proposed: null, planned: { metres: 0 } })
  })
})

describe('a plot', () => {
  it('gets a short path without crossings: round a square, three sides', () => {
    const square = [inPlot(0, 0, 'A'), inPlot(10, 10, 'B'), inPlot(10, 0, 'C'), inPlot(0, 10, 'D')]
    expect(walkingMetres(shortPath(square))).toBeCloseTo(30, 9)
    expect(adviseWalk(square).warnings).toEqual([])
    expect(proposeWalk(square)!.metres).toBeCloseTo(30, 9)
  })
  it('is measured along both sides', () => {
    const row = [1, 2, 3].map((x) => inPlot(x, 4, `Q${x}`))
    expect(judgeWalk('', row).follows).toEqual([
      { area: 'P1', along: 'x', r: 1 },
      { area: 'P1', along: 'y', r: null },
    ])
  })
})

describe('shareAmongGroups', () => {
  it('gives every group quadrats from both ends and as many as the others, give or take one', () => {
    const shares = shareAmongGroups(tape(10), ['G1', 'G2', 'G3'])
    expect(shares.flatMap(({ walk }) => walk.labels).sort()).toEqual(
      tape(10)
        .map(({ label }) => label)
        .sort(),
    )
    for (const { walk } of shares) {
      expect([3, 4]).toContain(walk.labels.length)
      const metres = walk.labels.map((label) => 2 * Number(label.slice(1)) - 1)
      // the tape has quadrats from 1 m to 19 m: its thirds end at 7 and 13 m
      expect(Math.min(...metres)).toBeLessThanOrEqual(7)
      expect(Math.max(...metres)).toBeGreaterThanOrEqual(13)
    }
  })
  it('leaves groups empty when there are more groups than quadrats', () => {
    expect(shareAmongGroups(tape(1), ['G1', 'G2']).map(({ walk }) => walk.labels)).toEqual([['Q1'], []])
  })
})
