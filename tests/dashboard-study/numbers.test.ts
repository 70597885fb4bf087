import { describe, expect, it } from 'vitest'
import { joinedCellText } from '../../dashboard/study/join/cell-text.ts'
import { svgDataAddress, svgSize } from '../../dashboard/study/look/svg-size.ts'
import { besideResult } from '../../dashboard/study/pairs/expectation-choices.ts'
import { coefficientText, pText, roughText } from '../../dashboard/study/pairs/number-words.ts'
import { robustnessWords } from '../../dashboard/study/pairs/robustness-words.ts'
import { sortPairs } from '../../dashboard/study/pairs/sort-pairs.ts'
import { summaryColumns } from '../../dashboard/study/summary/summary-columns.ts'
import { valueWithUncertainty } from '../../dashboard/study/summary/value-with-uncertainty.ts'
import type { QuadratSummary, StudyPair } from '../../hub/contract/study.ts'

// expected: a result and its interval end in the same digit (GUM, JCGM 100:2008, 7.2.6); one digit of the interval, two
// where it begins with 1 (common practice, no source)
describe('valueWithUncertainty', () => {
  const shown = (quantity: string, unit: string, value: number, expanded: number | null) => {
    const { value: text, plusMinus, unit: written } = valueWithUncertainty(quantity, unit, value, expanded)
    return `${text} ± ${plusMinus} ${written}`
  }
  it('writes both to the same digit', () => {
    // 0.24 is the worked example of the domain map, 2.10
    expect(shown('soil_ph', 'pH', 5.4831, 0.24)).toBe('5.5 ± 0.2 pH')
    expect(shown('soil_ph', 'pH', 5.4831, 0.148)).toBe('5.48 ± 0.15 pH')
    expect(shown('wind_speed', 'm/s', 0.1824, 0.021)).toBe('0.18 ± 0.02 m/s')
  })
  it('writes ratios in %, and light to tens and hundreds', () => {
    expect(shown('soil_moisture', '/', 0.7051, 0.0132)).toBe('70.5 ± 1.3 %')
    expect(shown('illuminance', 'lx', 4177, 1934)).toBe('4200 ± 1900 lx')
  })
  it('never writes an interval as 0, nor more than one digit beyond a reading', () => {
    expect(shown('wind_speed', 'm/s', 0.0341, 0.0004)).toBe('0.03 ± 0.01 m/s')
  })
  it('writes a value alone when its interval is not known', () => {
    expect(shown('soil_temperature', 'Cel', 11.94, null)).toBe('11.9 ± null °C')
    expect(shown('soil_temperature', 'Cel', 11.94, 0)).toBe('11.9 ± null °C')
  })
})

const pair = (factor: string, species: string, change: Partial<StudyPair> = {}): StudyPair => ({
  factor,
  factorUnit: 'pH',
  species,
  measure: 'cover-percent',
  n: 8,
  points: [],
  rho: null,
  p: null,
  adjustedP: null,
  method: 'exact permutation',
  rhoLow: null,
  rhoHigh: null,
  pearson: null,
  pearsonP: null,
  significantShare: null,
  result: null,
  verdict: null,
  cautions: [],
  ...change,
})

describe('sortPairs', () => {
  const pairs = [
    pair('Wind', 'Moss'),
    pair('Light', 'Moss', { rho: 0.5, p: 0.2, adjustedP: 1 }),
    pair('Light', 'Fern', { rho: -0.9, p: 0.01, adjustedP: 0.04 }),
    pair('Soil pH', 'Moss', { rho: -0.7, p: 0.2, adjustedP: 1 }),
    pair('Soil pH', 'Fern', { rho: 0.7, p: 0.1, adjustedP: 1 }),
  ]
  const named = (order: Parameters<typeof sortPairs>[1]) =>
    sortPairs(pairs, order).map(({ factor, species }) => `${factor} ${species}`)
  it('puts the clearest first: by Holm’s p, by p, by strength, and what has none last', () => {
    expect(named('clearest')).toEqual([
      'Light Fern',
      'Soil pH Fern',
      'Soil pH Moss',
      'Light Moss',
      'Wind Moss',
    ])
  })
  it('goes by name when asked, and changes nothing in the list it was given', () => {
    expect(named('factor')[0]).toBe('Light Fern')
    expect(named('species').slice(0, 2)).toEqual(['Light Fern', 'Soil pH Fern'])
    expect(pairs[0]!.factor).toBe('Wind')
  })
})

describe('numbers of a test', () => {
  it('are written with their sign, and p never as 0', () => {
    expect([0.9602, -0.5, 0, null].map(coefficientText)).toEqual(['+0.96', '−0.50', '0.00', '–'])
    expect([0.0004, 0.0021, 0.05, 1, null].map(pText)).toEqual(['< 0.001', '0.0021', '0.050', '1.000', '–'])
    // 24 tests expect 1.2 false alarms: story A15 of the domain map
    expect(roughText(0.05 * 24)).toBe('1.2')
  })
  it('of robustness are a count out of a hundred, and stay only what was significant', () => {
    expect(robustnessWords(0.93, true)).toBe(
      'In 93 of 100 redraws within your uncertainty it stays significant.',
    )
    expect(robustnessWords(0.12, false)).toBe(
      'In 12 of 100 redraws within your uncertainty it would be significant.',
    )
    expect(robustnessWords(null, false)).toMatch(/cannot be told/)
  })
})

describe('besideResult', () => {
  it('tells whether the order goes the way that was expected, only where there is one', () => {
    const clear = { rho: -0.9, p: 0.01 }
    expect(besideResult('falls', clear)).toMatch(/goes the way you expected/)
    expect(besideResult('rises', clear)).toMatch(/goes the other way/)
    expect(besideResult('none', clear)).toMatch(/clearer order than you expected/)
    expect(besideResult('rises', { rho: 0.2, p: 0.6 })).toMatch(/clear enough/)
    expect(besideResult('none', { rho: 0.2, p: 0.6 })).toMatch(/not yet a proof/)
    expect(besideResult('hump', clear)).toMatch(/judge by the picture/)
    expect(besideResult('rises', { rho: null, p: null })).toMatch(/no test/)
  })
  it('counts p of exactly 0.05 as clear', () => {
    expect(besideResult('rises', { rho: 0.8, p: 0.05 })).toMatch(/goes the way/)
    expect(besideResult('rises', { rho: 0.8, p: 0.0501 })).toMatch(/clear enough/)
  })
})

describe('summaryColumns', () => {
  const summary = (quadrat: string, quantity: string, depthCentimetres: number) =>
    ({ quadrat, quantity, method: { depthCentimetres }, unit: 'x' }) as unknown as QuadratSummary
  it('has a column for each quantity and way, in the order of the notebook, the class’s own last', () => {
    const columns = summaryColumns([
      summary('Q1', 'soil_salt', 5),
      summary('Q1', 'soil_temperature', 5),
      summary('Q2', 'soil_temperature', 5),
      summary('Q1', 'soil_temperature', 10),
      summary('Q1', 'soil_ph', 5),
    ])
    expect(columns.map(({ label, how, ofQuadrat }) => `${label}, ${how}: ${ofQuadrat.size}`)).toEqual([
      'Soil pH, 5 cm deep: 1',
      'Soil temperature, 5 cm deep: 2',
      'Soil temperature, 10 cm deep: 1',
      'Soil salt, 5 cm deep: 1',
    ])
  })
})

describe('cells and pictures', () => {
  it('rounds long fractions of the joined table on the page, not whole numbers', () => {
    expect([5.233481, 1046, 0.00449912, 'Q1', null, 0].map(joinedCellText)).toEqual([
      '5.233',
      '1046',
      '0.004499',
      'Q1',
      '',
      '0',
    ])
  })
  it('knows the size of an SVG by width and height, else by its view box', () => {
    expect(svgSize('<svg xmlns="x" width="760" height="420.5" viewBox="0 0 1 1">')).toEqual({
      widthPx: 760,
      heightPx: 420.5,
    })
    expect(svgSize('<?xml version="1.0"?><svg viewBox="0 0 300 200"><rect width="9"/></svg>')).toEqual({
      widthPx: 300,
      heightPx: 200,
    })
    expect(svgSize('<svg width="100%">')).toBeNull()
    expect(svgSize('no picture')).toBeNull()
  })
  it('writes an SVG as an address that is the same SVG', () => {
    const svg = '<svg><text>5 % # “ö”</text></svg>'
    const address = svgDataAddress(svg)
    expect(address.startsWith('data:image/svg+xml;charset=utf-8,')).toBe(true)
    expect(decodeURIComponent(address.slice(address.indexOf(',') + 1))).toBe(svg)
  })
})
