import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { chiSquareTail } from '../../../../hub/study/statistics/chi-square.ts'
import { holm } from '../../../../hub/study/statistics/holm.ts'
import { kruskalWallis } from '../../../../hub/study/statistics/kruskal-wallis.ts'
import { mannWhitney } from '../../../../hub/study/statistics/mann-whitney.ts'
import { STATISTICS_REFUSALS } from '../../../../hub/study/statistics/refusals.ts'
import { twoSpecies } from '../../../../hub/study/statistics/two-species.ts'
import { answered, digitsMet, refusedWith } from './answered.ts'

const SHADE = [0, 0, 5, 12, 30, 5, 20, 0, 3]
const OPEN = [10, 25, 40, 5, 60, 80, 35]

describe('mannWhitney', () => {
  test('exact without ties: permeability of ten and five membranes, U 35, p 0.2544', () => {
    // Hollander & Wolfe 1973, p. 69 f., the example of R’s wilcox.test (from memory); p by scipy 1.17.1, exact
    const term = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]
    const early = [1.15, 0.88, 0.9, 0.74, 1.21]
    const found = answered(mannWhitney(term, early))
    expect(found).toMatchObject({ u1: 35, u2: 15, u: 15, n1: 10, n2: 5, median2: 0.9, method: 'exact' })
    expect(found.p).toBeCloseTo(0.2544122544122544, 13)
  })

  test('with ties: the normal approximation with both corrections', () => {
    // scipy 1.17.1 mannwhitneyu(method='asymptotic')
    const found = answered(mannWhitney(SHADE, OPEN))
    expect(found.u1).toBe(8)
    expect(digitsMet(found.p, 0.014324277666519954)).toBeGreaterThan(11)
    expect(found.method).toBe('normal approximation with continuity correction and tie correction')
  })

  test('published critical value: U = 2 of five and five is significant at 0.05, U = 3 is not', () => {
    // Mann & Whitney’s table, two-tailed 0.05, n1 = n2 = 5: 2 (from memory)
    expect(answered(mannWhitney([1, 2, 3, 4, 7], [5, 6, 8, 9, 10]))).toMatchObject({ u: 2 })
    expect(answered(mannWhitney([1, 2, 3, 4, 7], [5, 6, 8, 9, 10])).p!).toBeLessThan(0.05)
    expect(answered(mannWhitney([1, 2, 3, 4, 8], [5, 6, 7, 9, 10])).u).toBe(3)
    expect(answered(mannWhitney([1, 2, 3, 4, 8], [5, 6, 7, 9, 10])).p!).toBeGreaterThan(0.05)
  })

  test('exact p is the share of all ways to choose the first sample, by walking through every one', () => {
    const sizes = fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 5 }))
    const mixed = sizes.chain(([n1, n2]) =>
      fc.tuple(
        fc.constant(n1),
        fc.shuffledSubarray(
          Array.from({ length: n1 + n2 }, (_, k) => k + 1),
          { minLength: n1 + n2 },
        ),
      ),
    )
    fc.assert(
      fc.property(mixed, ([n1, all]) => {
        const found = answered(mannWhitney(all.slice(0, n1), all.slice(n1)))
        const every = choices(all, n1).map((first) => {
          const rest = all.filter((each) => !first.includes(each))
          return first.reduce((sum, one) => sum + rest.filter((other) => other < one).length, 0)
        })
        const asFar = every.filter((u) => u <= found.u).length
        expect(found.p).toBeCloseTo(Math.min(1, (2 * asFar) / every.length), 12)
      }),
      { seed: 31, numRuns: 60 },
    )
  })

  test('swapping the areas swaps U and leaves p; equal values everywhere are not defined', () => {
    const one = answered(mannWhitney(SHADE, OPEN))
    const other = answered(mannWhitney(OPEN, SHADE))
    expect([other.u1, other.u2, other.p]).toEqual([one.u2, one.u1, one.p])
    expect(answered(mannWhitney([5, 5], [5, 5, 5]))).toMatchObject({ p: null, u1: 3 })
    refusedWith(mannWhitney([], [1]), 'E_TOO_FEW')
  })
})

describe('kruskalWallis', () => {
  test('mucociliary efficiency of three groups: H 0.7714, p 0.68', () => {
    // Hollander & Wolfe 1973, p. 116, the example of R’s kruskal.test (from memory); scipy 1.17.1
    const found = answered(
      kruskalWallis([
        [2.9, 3, 2.5, 2.6, 3.2],
        [3.8, 2.7, 4, 2.4],
        [2.8, 3.4, 3.7, 2.2, 2],
      ]),
    )
    expect(found.h).toBeCloseTo(0.7714285714285714, 12)
    expect(found.p).toBeCloseTo(0.6799647735788936, 12)
    expect(found).toMatchObject({ degreesOfFreedom: 2, n: 14, isRough: true })
  })

  test('with ties', () => {
    // scipy 1.17.1 kruskal
    const found = answered(kruskalWallis([SHADE, OPEN, [1, 0, 5, 12, 5]]))
    expect(found.h).toBeCloseTo(8.250854660397408, 11)
    expect(found.p).toBeCloseTo(0.01615658891441831, 12)
    expect(found.isRough).toBe(false)
  })

  test('equal values are not defined; one group, or an empty one, is refused', () => {
    expect(answered(kruskalWallis([[1, 1], [1]]))).toMatchObject({ h: null, p: null })
    refusedWith(kruskalWallis([[1, 2]]), 'E_TOO_FEW')
    expect(refusedWith(kruskalWallis([[1, 2], []]), 'E_TOO_FEW')).toContain('group 2')
  })
})

describe('chiSquareTail', () => {
  test('odd and even degrees of freedom, from the middle far into the tail', () => {
    // scipy 1.17.1 chi2.sf
    const cases: [number, number, number][] = [
      [0.5, 1, 0.47950012218695337],
      [3.841, 1, 0.050013683763956804],
      [60, 1, 9.485737571073857e-15],
      [3.841, 2, 0.1465336769721013],
      [20, 3, 0.00016974243555282632],
      [60, 4, 2.9008631203404573e-12],
      [3.841, 7, 0.7978982383023949],
      [20, 10, 0.029252688076961124],
    ]
    for (const [x, degrees, p] of cases) {
      expect(digitsMet(chiSquareTail(x, degrees), p), `${x} on ${degrees}`).toBeGreaterThan(11)
    }
    expect(chiSquareTail(0, 3)).toBe(1)
  })
})

describe('twoSpecies', () => {
  test('enough quadrats: chi-square, Yates and Fisher agree on the verdict', () => {
    // scipy 1.17.1 chi2_contingency, fisher_exact
    const found = answered(twoSpecies({ both: 12, firstOnly: 5, secondOnly: 3, neither: 20 }))
    expect(found).toMatchObject({ n: 40, association: 'together', isExpectedTooSmall: false })
    expect(found.smallestExpected).toBeCloseTo(6.375, 12)
    expect(found.chiSquare).toBeCloseTo(13.81074168797954, 11)
    expect(found.p).toBeCloseTo(0.0002021770229432013, 14)
    expect(found.chiSquareYates).toBeCloseTo(11.464620630861038, 11)
    expect(found.pYates).toBeCloseTo(0.0007093370992357136, 14)
    expect(found.pFisher).toBeCloseTo(0.0002999894216743347, 14)
  })

  test('Fisher’s cups of tea: 3 1 1 3 gives 0.486, and a warning that chi-square is not to be used', () => {
    // Fisher 1935, The Design of Experiments, §5–11; two-tailed 34/70
    const found = answered(twoSpecies({ both: 3, firstOnly: 1, secondOnly: 1, neither: 3 }))
    expect(found.pFisher).toBeCloseTo(34 / 70, 12)
    expect(found.isExpectedTooSmall).toBe(true)
    expect(found.pYates).toBeCloseTo(0.47950012218695337, 12)
  })

  test('expected exactly 5 is enough; species that avoid each other are apart', () => {
    // scipy 1.17.1
    const found = answered(twoSpecies({ both: 1, firstOnly: 9, secondOnly: 11, neither: 3 }))
    expect(found).toMatchObject({ smallestExpected: 5, isExpectedTooSmall: false, association: 'apart' })
    expect(found.pFisher).toBeCloseTo(0.0027594561852200836, 13)
    const none = answered(twoSpecies({ both: 0, firstOnly: 5, secondOnly: 7, neither: 2 }))
    expect(none.pFisher).toBeCloseTo(0.020979020979020983, 13)
  })

  test('a difference below Yates’ half is 0, not negative', () => {
    const found = answered(twoSpecies({ both: 5, firstOnly: 5, secondOnly: 5, neither: 5 }))
    expect(found).toMatchObject({
      association: 'as by chance',
      chiSquare: 0,
      p: 1,
      chiSquareYates: 0,
      pYates: 1,
    })
    expect(found.pFisher).toBeCloseTo(1, 12)
  })

  test('a species that is everywhere, or nowhere, says nothing', () => {
    expect(answered(twoSpecies({ both: 4, firstOnly: 6, secondOnly: 0, neither: 0 }))).toMatchObject({
      association: null,
      chiSquare: null,
      pFisher: null,
    })
  })

  test('what is no count is refused', () => {
    const counts = { both: 1, firstOnly: 1, secondOnly: 1, neither: 1 }
    refusedWith(twoSpecies({ ...counts, both: 1.5 }), 'E_NOT_WHOLE')
    refusedWith(twoSpecies({ ...counts, neither: -1 }), 'E_NEGATIVE')
    refusedWith(twoSpecies({ both: 0, firstOnly: 0, secondOnly: 0, neither: 0 }), 'E_TOO_FEW')
    refusedWith(twoSpecies({ ...counts, neither: 1e6 }), 'E_TOO_MANY')
  })
})

describe('holm', () => {
  test('24 tests: 1.2 false alarms to expect, the first threshold is 0.0021', () => {
    const found = answered(holm(Array.from({ length: 24 }, (_, k) => (k + 1) / 25)))
    expect(found.expectedFalseAlarms).toBeCloseTo(1.2, 12)
    expect(found.tests[0]!.threshold).toBeCloseTo(0.05 / 24, 12)
    expect(found.tests.some((each) => each.isSignificant)).toBe(false)
  })

  test('adjusted p’s in the order given, never falling', () => {
    // by hand after Holm 1979: sorted 0.005 0.01 0.03 0.04 × 4 3 2 1, then the running greatest
    const found = answered(holm([0.01, 0.04, 0.03, 0.005]))
    const adjusted = [0.03, 0.06, 0.06, 0.02]
    for (const [k, each] of found.tests.entries()) expect(each.adjustedP).toBeCloseTo(adjusted[k]!, 14)
    expect(found.tests.map((each) => each.isSignificant)).toEqual([true, false, false, true])
  })

  test('a test without a p is kept in its place and not counted', () => {
    const found = answered(holm([null, 0.04]))
    expect(found.testCount).toBe(1)
    expect(found.tests[0]).toEqual({ p: null, adjustedP: null, threshold: null, isSignificant: false })
    expect(found.tests[1]).toEqual({ p: 0.04, adjustedP: 0.04, threshold: 0.05, isSignificant: true })
    refusedWith(holm([]), 'E_TOO_FEW')
    refusedWith(holm([1.2]), 'E_LEVEL')
    refusedWith(holm([0.5], 0), 'E_LEVEL')
  })

  test('no adjusted p is below its own p or above 1, and the order of p’s is kept', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1 }), (ps) => {
        const { tests } = answered(holm(ps))
        for (const one of tests) {
          expect(one.adjustedP!).toBeGreaterThanOrEqual(one.p!)
          expect(one.adjustedP!).toBeLessThanOrEqual(1)
          for (const other of tests) {
            if (one.p! < other.p!) expect(one.adjustedP!).toBeLessThanOrEqual(other.adjustedP!)
          }
        }
      }),
      { seed: 32 },
    )
  })
})

test('the catalogue of statistics: every code begins with E_ and says what it means', () => {
  for (const [code, meaning] of Object.entries(STATISTICS_REFUSALS)) {
    expect(code).toMatch(/^E_[A-Z_]+$/)
    expect(meaning.length).toBeGreaterThan(20)
  }
})

function choices(all: readonly number[], size: number): number[][] {
  if (size === 0) return [[]]
  return all.flatMap((one, k) => choices(all.slice(k + 1), size - 1).map((rest) => [one, ...rest]))
}
