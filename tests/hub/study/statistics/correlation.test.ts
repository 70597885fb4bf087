import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { pearsonInterval, spearmanInterval } from '../../../../hub/study/statistics/correlation-interval.ts'
import { correlationPByStudentT } from '../../../../hub/study/statistics/correlation-p.ts'
import { findHump } from '../../../../hub/study/statistics/hump.ts'
import { midRanks } from '../../../../hub/study/statistics/mid-ranks.ts'
import { pearson } from '../../../../hub/study/statistics/pearson.ts'
import { rankCorrelation } from '../../../../hub/study/statistics/rank-correlation.ts'
import { countRankPermutations } from '../../../../hub/study/statistics/rank-permutations.ts'
import { spearman } from '../../../../hub/study/statistics/spearman.ts'
import { criticalSpearman } from '../../../../hub/study/statistics/spearman-critical.ts'
import { referenceJson, referenceRows } from '../../../calibration/reference-files.ts'
import { answered, digitsMet, refusedWith } from './answered.ts'

interface SpearmanCase {
  id: string
  x: number[]
  y: number[]
  n: number
  ties: boolean
  ranks_x: number[]
  ranks_y: number[]
  sum_d2: number
  rho: number | null
  rho_by_1_minus_6sumd2: number
  p_two_tailed_t_approx_scipy: number | null
  p_two_tailed_exact_permutation: number | null
  pearson_r: number | null
}

const LIGHT = [3, 5, 8, 12, 20, 33, 47, 60, 78, 95]
const GRASS = [2, 0, 5, 5, 12, 30, 25, 60, 55, 80]

describe('the cases of two programs and of full enumeration', () => {
  // stats-spearman-cases.json: scipy 1.10.1, R 4.2.2, all permutations
  const { cases } = referenceJson('stats-spearman-cases.json') as { cases: SpearmanCase[] }

  test.each(cases.map((each) => [each.id, each] as const))('%s', (_, given) => {
    const found = answered(spearman(given.x, given.y))
    expect(midRanks(given.x)).toEqual(given.ranks_x)
    expect(midRanks(given.y)).toEqual(given.ranks_y)
    expect(found).toMatchObject({
      n: given.n,
      hasTies: given.ties,
      sumOfSquaredDifferences: given.sum_d2,
    })
    expect(found.shortCut).toBeCloseTo(given.rho_by_1_minus_6sumd2, 14)
    const { r } = answered(pearson(given.x, given.y))
    if (given.rho === null) {
      expect(found).toMatchObject({ rho: null, p: null, method: 'not defined: all values of x are the same' })
      expect(r).toBeNull()
      return
    }
    expect(found.rho).toBeCloseTo(given.rho, 14)
    expect(digitsMet(found.p, given.p_two_tailed_exact_permutation!)).toBeGreaterThan(13)
    expect(found.method).toBe(given.ties ? 'exact permutation, ties as mid-ranks' : 'exact permutation')
    expect(r).toBeCloseTo(given.pearson_r!, 12)
    // the second method, that of larger n; both programs print 0 or a rounding trace for a perfect order
    const byT = correlationPByStudentT(found.rho!, given.n)!
    if (Math.abs(found.rho!) === 1) expect(byT).toBe(0)
    else expect(digitsMet(byT, given.p_two_tailed_t_approx_scipy!)).toBeGreaterThan(10)
  })
})

describe('story: is it the light?', () => {
  test('rho 0.960 by mid-ranks, 0.961 by the short cut, above the critical 0.648', () => {
    // worked by hand: Σd² 6.5, 1 − 39/990, (82.5 + 82.0 − 6.5)/(2√(82.5·82.0))
    const found = answered(spearman(LIGHT, GRASS))
    expect(found.sumOfSquaredDifferences).toBe(6.5)
    expect(found.shortCut).toBeCloseTo(1 - 39 / 990, 12)
    expect(found.rho).toBeCloseTo((82.5 + 82 - 6.5) / (2 * Math.sqrt(82.5 * 82)), 12)
    expect(found.rho!).toBeGreaterThan(criticalSpearman(10)!)
    expect(found.p!).toBeLessThan(0.001)
  })

  test('the first five rows alone are not significant: critical value 1', () => {
    const found = answered(spearman(LIGHT.slice(0, 5), GRASS.slice(0, 5)))
    expect(criticalSpearman(5)).toBe(1)
    expect(found.rho!).toBeLessThan(1)
    expect(found.p!).toBeGreaterThan(0.05)
  })
})

describe('critical values of Spearman’s rho at 0.05, two-tailed', () => {
  test('every row of the published table A', () => {
    // stats-spearman-critical-005.csv
    for (const row of referenceRows('stats-spearman-critical-005.csv')) {
      const table = row['critical_table_A']
      const found = criticalSpearman(Number(row['n']))
      if (table === 'none') expect(found).toBeNull()
      else expect(found, `n = ${row['n']}`).toBe(Number(table))
    }
  })

  test('the rows between: 0.886, 0.700, 0.560, 0.503, 0.460, 0.425, 0.398, 0.375', () => {
    // n = 6, 9, 13, 16 by counting all orders in a program of its own; above by the Edgeworth series of Best &
    // Roberts 1975, which meets every row of table A from n = 12 on
    const found = [6, 9, 13, 16, 19, 22, 25, 28].map(criticalSpearman)
    expect(found).toEqual([0.886, 0.7, 0.56, 0.503, 0.46, 0.425, 0.398, 0.375])
  })

  test('each is where the exact p passes 0.05, to n = 12', () => {
    for (let n = 5; n <= 12; n++) {
      const ranks = Array.from({ length: n }, (_, k) => k + 1)
      const { ways, total } = countRankPermutations(ranks, ranks)
      // the greatest sum is rho = 1; one less is Σd² more by 2
      let tail = 0
      let least = 1
      for (let sum = ways.length - 1; sum >= 0; sum--) {
        if (ways[sum] === 0) continue
        tail += ways[sum]!
        if ((2 * tail) / total > 0.05) break
        least = 1 - (6 * 2 * (ways.length - 1 - sum)) / (n * (n * n - 1))
      }
      expect(Math.round(least * 1000) / 1000, `n = ${n}`).toBe(criticalSpearman(n))
    }
  })

  test('beyond 30 they go on falling, as the t approximation does', () => {
    // t(0.975, 98) = 1.984467 (from memory of printed tables) gives 0.1966
    expect(criticalSpearman(100)).toBeCloseTo(0.1966, 4)
    expect(criticalSpearman(31)!).toBeLessThan(criticalSpearman(30)!)
  })
})

describe('what is always true of spearman', () => {
  const tied = fc.array(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 9 })), {
    minLength: 2,
    maxLength: 7,
  })
  const split = (pairs: [number, number][]) => [pairs.map(([x]) => x), pairs.map(([, y]) => y)] as const

  test('exact p is the share of all n! orders as far from 0, by walking through every one', () => {
    fc.assert(
      fc.property(tied, (pairs) => {
        const [x, y] = split(pairs)
        const found = answered(spearman(x, y))
        if (found.rho === null) return
        const [xRanks, yRanks] = [midRanks(x), midRanks(y)]
        const orders = everyOrder(yRanks)
        const far = orders.filter(
          (order) => Math.abs(rankCorrelation(xRanks, order)!) >= Math.abs(found.rho!) - 1e-9,
        )
        expect(found.p).toBeCloseTo(far.length / orders.length, 12)
      }),
      { seed: 22, numRuns: 60 },
    )
  })

  test('turning a list round flips the sign and nothing else', () => {
    fc.assert(
      fc.property(tied, (pairs) => {
        const [x, y] = split(pairs)
        const one = answered(spearman(x, y))
        const other = answered(
          spearman(
            x,
            y.map((value) => -value),
          ),
        )
        expect(other.rho).toEqual(one.rho === null ? null : 0 - one.rho)
        expect({ p: other.p, method: other.method, n: other.n }).toEqual({
          p: one.p,
          method: one.method,
          n: one.n,
        })
      }),
      { seed: 23 },
    )
  })

  test('a bent but rising scale leaves rho and p as they are', () => {
    fc.assert(
      fc.property(tied, (pairs) => {
        const [x, y] = split(pairs)
        expect(
          spearman(
            x.map((value) => Math.exp(value)),
            y.map((value) => value ** 3 - 7),
          ),
        ).toEqual(spearman(x, y))
      }),
      { seed: 24 },
    )
  })

  test('the order of the quadrats, and which list is called x, do not matter', () => {
    const shuffled = tied.chain((pairs) =>
      fc.tuple(
        fc.constant(pairs),
        fc.shuffledSubarray(pairs, { minLength: pairs.length, maxLength: pairs.length }),
      ),
    )
    fc.assert(
      fc.property(shuffled, ([pairs, mixed]) => {
        const [x, y] = split(pairs)
        const one = answered(spearman(x, y))
        const other = answered(spearman(split(mixed)[1], split(mixed)[0]))
        if (one.rho === null) expect(other.rho).toBeNull()
        else expect(other.rho).toBeCloseTo(one.rho, 14)
        if (one.p !== null) expect(other.p).toBeCloseTo(one.p, 12)
      }),
      { seed: 25 },
    )
  })

  test('rho is Pearson’s r of the mid-ranks', () => {
    fc.assert(
      fc.property(tied, (pairs) => {
        const [x, y] = split(pairs)
        const { rho } = answered(spearman(x, y))
        const { r } = answered(pearson(midRanks(x), midRanks(y)))
        if (rho === null) expect(r).toBeNull()
        else expect(r).toBeCloseTo(rho, 12)
      }),
      { seed: 26 },
    )
  })
})

describe('the edges of spearman and pearson', () => {
  test('n = 13 and more take the t approximation, never below what one order of n! can be', () => {
    const x = Array.from({ length: 13 }, (_, k) => k)
    const perfect = answered(spearman(x, x))
    expect(perfect.method).toBe('t approximation')
    // 2/13!
    expect(perfect.p! / (2 / 6227020800)).toBeCloseTo(1, 12)
    const forty = Array.from({ length: 400 }, (_, k) => k)
    expect(answered(spearman(forty, forty)).rho).toBe(1)
  })

  test('the five commonest lichen-pasture species against pH, as R gives them', () => {
    // eco-varespec-results.json: R 4.2.2 cor.test, scipy 1.10.1; 24 sites with ties
    const ph = referenceRows('eco-varechem.csv').map((row) => Number(row['pH']))
    const sites = referenceRows('eco-varespec.csv')
    for (const given of referenceJson('eco-varespec-results.json').top5_by_mean_cover) {
      const found = answered(
        spearman(
          ph,
          sites.map((site) => Number(site[given.species])),
        ),
      )
      expect(digitsMet(found.rho, given.rho), given.species).toBeGreaterThan(12)
      expect(digitsMet(found.p, given.p_t), given.species).toBeGreaterThan(11)
      expect(found.method).toBe('t approximation, ties as mid-ranks')
    }
  })

  test('a constant list gives “not defined”, never 0 and never NaN', () => {
    expect(answered(spearman([1, 2, 3], [0, 0, 0]))).toMatchObject({
      rho: null,
      p: null,
      method: 'not defined: all values of y are the same',
    })
    expect(answered(spearman([0, 0], [0, 0])).method).toContain('x and y')
    expect(answered(pearson([0.1, 0.1, 0.1], [1, 2, 3]))).toEqual({ r: null, p: null, n: 3 })
    expect(answered(spearman([1], [2]))).toMatchObject({ rho: null, p: null, n: 1, shortCut: null })
  })

  test('two pairs have a coefficient and prove nothing', () => {
    expect(answered(spearman([1, 2], [5, 3]))).toMatchObject({ rho: -1, p: 1 })
    expect(answered(pearson([1, 2], [5, 3]))).toEqual({ r: -1, p: null, n: 2 })
  })

  test('unpaired, empty and broken lists are refused in words', () => {
    expect(refusedWith(spearman([1, 2], [1]), 'E_UNPAIRED')).toContain('2')
    refusedWith(spearman([], []), 'E_TOO_FEW')
    refusedWith(pearson([1, Number.NaN], [1, 2]), 'E_NOT_FINITE')
    refusedWith(pearson([1, 2, 3], [1]), 'E_UNPAIRED')
  })

  test('pearson agrees with scipy in r and p, and keeps inside ±1 for tiny and huge scales', () => {
    // scipy 1.17.1 pearsonr
    const found = answered(pearson([1, 2, 3, 4, 5, 6, 7, 8], [2, 1, 4, 3, 7, 8, 6, 9]))
    expect(found.r).toBeCloseTo(0.8964214570007951, 13)
    expect(found.p).toBeCloseTo(0.002566766096253243, 12)
    for (const scale of [1e-160, 1e140]) {
      const { r } = answered(pearson([scale, 2 * scale, 4 * scale], [1, 2, 3]))
      expect(r).toBeCloseTo(0.9819805060619659, 12)
    }
  })
})

describe('intervals of a coefficient', () => {
  test('Fisher’s for r as scipy gives it', () => {
    // scipy 1.17.1 pearsonr(...).confidence_interval()
    const interval = pearsonInterval(0.8964214570007951, 8)!
    expect(interval.low).toBeCloseTo(0.5206086452865091, 10)
    expect(interval.high).toBeCloseTo(0.9812527738012913, 10)
  })

  test('Bonett & Wright’s for rho is wider, by the factor √(1 + rho²/2) on the z scale', () => {
    const [rank, straight] = [spearmanInterval(0.6, 20)!, pearsonInterval(0.6, 20)!]
    const width = ({ low, high }: { low: number; high: number }) => Math.atanh(high) - Math.atanh(low)
    expect(width(rank) / width(straight)).toBeCloseTo(Math.sqrt(1.18), 10)
  })

  test('too few pairs, or a perfect order, leave nothing to judge by', () => {
    expect([spearmanInterval(0.5, 3), spearmanInterval(1, 10), pearsonInterval(-1, 10)]).toEqual([
      null,
      null,
      null,
    ])
  })
})

describe('findHump', () => {
  test('sees what rank correlation cannot: most in the middle, or least', () => {
    // stats-spearman-cases.json sp15: rho 0.14, though the pattern is plain
    const x = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]
    const y = [1, 4, 7, 10, 13, 15, 14, 12, 9, 6, 3]
    expect(findHump(x, y)).toBe('hump')
    expect(
      findHump(
        x,
        y.map((value) => -value),
      ),
    ).toBe('dip')
  })

  test('is silent about what goes one way, about few, and about nothing at all', () => {
    expect(findHump(LIGHT, GRASS)).toBeNull()
    expect(findHump([1, 2, 3, 4, 5], [1, 3, 5, 3, 1])).toBeNull()
    expect(findHump(LIGHT, [1, 8, 3, 9, 2, 7, 4, 10, 5, 6])).toBeNull()
    expect(findHump(LIGHT, new Array(10).fill(0))).toBeNull()
    refusedWith(findHump([1], []), 'E_UNPAIRED')
  })
})

function everyOrder(values: readonly number[]): number[][] {
  if (values.length <= 1) return [[...values]]
  return values.flatMap((value, k) =>
    everyOrder([...values.slice(0, k), ...values.slice(k + 1)]).map((rest) => [value, ...rest]),
  )
}
