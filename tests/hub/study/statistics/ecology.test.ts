import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { diversityOfCounts, diversityOfCover } from '../../../../hub/study/statistics/diversity.ts'
import { frequency } from '../../../../hub/study/statistics/frequency.ts'
import { meanCover } from '../../../../hub/study/statistics/mean-cover.ts'
import { referenceJson, referenceRows } from '../../../calibration/reference-files.ts'
import { answered, digitsMet, refusedWith } from './answered.ts'

const small = referenceJson('eco-diversity-small.json')

describe('diversity', () => {
  test('24 lichen-pasture sites as vegan gives them', () => {
    // eco-varespec-diversity.csv: vegan 2.6-4 diversity(), printed to 12 digits
    const covers = new Map(
      referenceRows('eco-varespec.csv').map(({ site, ...species }) => [
        site,
        Object.values(species).map(Number),
      ]),
    )
    const rows = referenceRows('eco-varespec-diversity.csv')
    expect(rows).toHaveLength(24)
    for (const row of rows) {
      const found = answered(diversityOfCover(covers.get(row['site'])!))
      expect(found.richness, row['site']).toBe(Number(row['richness']))
      expect(found.total).toBeCloseTo(Number(row['total']), 9)
      expect(digitsMet(found.shannon, Number(row['shannon_ln']))).toBeGreaterThan(11)
      expect(digitsMet(found.simpson, Number(row['simpson_1_minus_D']))).toBeGreaterThan(11)
      expect(digitsMet(found.evenness, Number(row['pielou_J']))).toBeGreaterThan(11)
    }
  })

  test('small cases by definition, each form of Simpson by its own name', () => {
    // eco-diversity-small.json, six decimals
    for (const given of small.diversity) {
      const counts = answered(diversityOfCounts(given.counts))
      const cover = answered(diversityOfCover(given.counts))
      expect(counts).toMatchObject({ richness: given.richness, total: given.total })
      expect(counts.simpsonForm).toBe('1 − Σn(n−1)/N(N−1)')
      expect(counts.simpson).toBeCloseTo(given.simpson_1_minus_sum_n_n1, 6)
      expect(cover.simpsonForm).toBe('1 − Σp²')
      expect(cover.simpson).toBeCloseTo(given.simpson_1_minus_sum_p2, 6)
      expect(counts.shannon).toBeCloseTo(given.shannon_ln, 6)
    }
  })

  test('nothing there, or one plant, is not a diversity of 0', () => {
    expect(answered(diversityOfCounts([0, 0]))).toMatchObject({
      richness: 0,
      simpson: null,
      shannon: null,
      evenness: null,
    })
    expect(answered(diversityOfCounts([1]))).toMatchObject({
      richness: 1,
      simpson: null,
      shannon: 0,
      evenness: null,
    })
    expect(answered(diversityOfCover([0]))).toMatchObject({ richness: 0, simpson: null, shannon: null })
  })

  test('equal shares are perfectly even; order and zeros change nothing', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 1, maxLength: 20 }), (counts) => {
        const one = answered(diversityOfCounts(counts))
        const other = answered(diversityOfCounts([0, ...counts].reverse()))
        expect(other.richness).toBe(one.richness)
        expect(other.simpson).toEqual(one.simpson)
        if (one.shannon !== null) expect(other.shannon).toBeCloseTo(one.shannon, 12)
      }),
      { seed: 41 },
    )
    expect(answered(diversityOfCover([20, 20, 20])).evenness).toBeCloseTo(1, 12)
  })

  test('broken, negative or no counts are refused', () => {
    expect(refusedWith(diversityOfCounts([2.5]), 'E_NOT_WHOLE')).toContain('cover')
    refusedWith(diversityOfCounts([-1]), 'E_NEGATIVE')
    refusedWith(diversityOfCover([]), 'E_TOO_FEW')
  })
})

describe('frequency', () => {
  test('Wilson’s interval, at the ends too', () => {
    // scipy 1.17.1 binomtest(k, n).proportion_ci(method='wilson')
    const cases: [number, number, number, number][] = [
      [0, 10, 0, 27.75327998628893],
      [6, 9, 35.4202135580396, 87.9416181613089],
      [10, 10, 72.2467200137111, 100],
      [3, 8, 13.68442858235974, 69.4257605397373],
    ]
    for (const [present, recorded, low, high] of cases) {
      const found = answered(frequency(present, recorded))
      expect(found.lowPercent).toBeCloseTo(low, 9)
      expect(found.highPercent).toBeCloseTo(high, 9)
    }
  })

  test('no quadrat, more than all, and parts of one are refused', () => {
    refusedWith(frequency(0, 0), 'E_TOO_FEW')
    refusedWith(frequency(3, 2), 'E_LEVEL')
    refusedWith(frequency(0.5, 2), 'E_NOT_WHOLE')
    refusedWith(frequency(1, 2, 2), 'E_LEVEL')
  })
})

describe('meanCover', () => {
  test('plus, zero and blank: 8.83 % and 66.7 %; with blank as absent 7.95 % and 60 %', () => {
    // worked by hand: 79.5/9, 6/9; 79.5/10, 6/10
    const blank = answered(meanCover([12, 0, 0.5, 35, null, 4, 0, 20, 8, 0]))
    expect(blank.meanCoverPercent).toBeCloseTo(79.5 / 9, 12)
    expect(blank.percentFrequency).toBeCloseTo(200 / 3, 12)
    expect(blank.quadratsRecorded).toBe(9)
    const absent = answered(meanCover([12, 0, 0.5, 35, 0, 4, 0, 20, 8, 0]))
    expect(absent.meanCoverPercent).toBeCloseTo(7.95, 12)
    expect(absent.percentFrequency).toBeCloseTo(60, 12)
  })

  test('the interval is the t interval, cut where cover ends', () => {
    // scipy 1.17.1 t.interval: −0.37…18.04
    const found = answered(meanCover([12, 0, 0.5, 35, null, 4, 0, 20, 8, 0]))
    expect(found.meanCoverLowPercent).toBe(0)
    expect(found.meanCoverHighPercent).toBeCloseTo(18.037310709612917, 9)
  })

  test('small cases by definition', () => {
    // eco-diversity-small.json
    for (const given of small.percent_frequency) {
      expect(answered(meanCover(given.cover_percent))).toMatchObject({
        quadratsPresent: given.quadrats_present,
        percentFrequency: given.percent_frequency,
        meanCoverPercent: given.mean_cover_all,
        meanCoverWherePresentPercent: given.mean_cover_where_present,
      })
    }
  })

  test('one quadrat has no interval; 710 % and all blank are refused', () => {
    expect(answered(meanCover([7]))).toMatchObject({ meanCoverLowPercent: null, meanCoverHighPercent: null })
    expect(refusedWith(meanCover([5, 710]), 'E_LEVEL')).toContain('710')
    refusedWith(meanCover([null, null]), 'E_TOO_FEW')
  })

  test('the five commonest lichen-pasture species', () => {
    // eco-varespec-results.json: R 4.2.2
    const sites = referenceRows('eco-varespec.csv')
    for (const given of referenceJson('eco-varespec-results.json').top5_by_mean_cover) {
      const found = answered(meanCover(sites.map((site) => Number(site[given.species]))))
      expect(found.meanCoverPercent).toBeCloseTo(given.mean_cover, 10)
      expect(found.percentFrequency).toBeCloseTo(given.frequency_percent, 10)
    }
  })
})
