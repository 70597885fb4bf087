import { describe, expect, test } from 'vitest'
import { emptyPicture } from '../../../../hub/study/pictures/empty-picture.ts'
import { placeLabels } from '../../../../hub/study/pictures/label-places.ts'
import { scaleFor } from '../../../../hub/study/pictures/linear-scale.ts'
import { nameWithUnit, shownUnit } from '../../../../hub/study/pictures/shown-unit.ts'
import { meanAt, stationsOf } from '../../../../hub/study/pictures/stations.ts'
import { tag, words } from '../../../../hub/study/pictures/svg-text.ts'
import { fitText, textWidth, wrapText } from '../../../../hub/study/pictures/text-width.ts'
import { fixedText, ticksAround, tickTexts } from '../../../../hub/study/pictures/ticks.ts'
import { overflowing, readSvg } from './read-svg.ts'

describe('SVG text', () => {
  test('hostile words stay words', () => {
    const hostile = `<script>alert("x")</script> & 'q' ]]>`
    const [svg, text] = readSvg(`<svg>${words(1, 2, hostile, { 'data-x': hostile })}</svg>`)
    expect(svg!.name).toBe('svg')
    expect(text!.text).toBe(hostile)
    expect(text!.attributes['data-x']).toBe(hostile)
  })

  test('signs that XML 1.0 forbids are shown as such, and the rest stays', () => {
    // XML 1.0, production 2
    expect(words(0, 0, 'a\u0000b\ud800c\uffffd ρ±😀')).toContain('a\ufffdb\ufffdc\ufffdd ρ±😀')
  })

  test('numbers are written to the hundredth, and what is undefined is left out', () => {
    expect(tag('line', { x1: 1 / 3, y1: 2, stroke: undefined })).toBe('<line x1="0.33" y1="2"/>')
  })
})

describe('axes', () => {
  test.each([
    // round steps of 1, 2 and 5, by hand
    [0, 10, 6, [0, 2, 4, 6, 8, 10]],
    [4.93, 6.5, 5, [4.5, 5, 5.5, 6, 6.5]],
    [0.1, 0.3, 3, [0.1, 0.2, 0.3]],
    [-3, 4, 5, [-4, -2, 0, 2, 4]],
    [21_000, 98_000, 6, [20_000, 40_000, 60_000, 80_000, 100_000]],
  ])('from %d to %d with at most %d ticks', (low, high, atMost, ticks) => {
    expect(ticksAround(low, high, atMost)).toEqual(ticks)
  })

  test('ticks are written alike, with a true minus sign and thousands set apart', () => {
    expect(tickTexts([-0.5, 0, 0.5])).toEqual(['−0.5', '0.0', '0.5'])
    expect(tickTexts([0, 20_000])).toEqual(['0', '20\u00a0000'])
    expect(fixedText(-0.001, 2)).toBe('0.00')
  })

  test('one value, or none, still has an axis with a length', () => {
    for (const values of [[], [0], [5], [-5]]) {
      const scale = scaleFor(values, 100, 0, 5)
      expect(scale.high).toBeGreaterThan(scale.low)
      for (const value of values) expect(scale.at(value)).toBeGreaterThanOrEqual(0)
    }
  })
})

test('ratios are shown as percentages, and a unit is not said twice', () => {
  expect(shownUnit('/')).toEqual({ text: '%', factor: 100 })
  expect(nameWithUnit('Soil temperature', 'Cel')).toBe('Soil temperature (°C)')
  expect(nameWithUnit('Light, % of open sky', '%')).toBe('Light, % of open sky')
  expect(nameWithUnit('Soil pH', 'pH')).toBe('Soil pH')
})

test('quadrats at one distance are one station, and their mean counts those that were recorded', () => {
  const stations = stationsOf([
    { label: 'B', distanceMetres: 2 },
    { label: 'A', distanceMetres: 0 },
    { label: 'C', distanceMetres: 2.0000001 },
  ])
  expect(stations.map(({ labels }) => labels)).toEqual([['A'], ['B', 'C']])
  const values = new Map([
    ['B', 10],
    ['C', 20],
  ])
  expect(meanAt(stations[1]!, (label) => values.get(label))).toBe(15)
  values.delete('C')
  expect(meanAt(stations[1]!, (label) => values.get(label))).toBe(10)
  expect(meanAt(stations[0]!, (label) => values.get(label))).toBeNull()
})

test('text is cut or wrapped to the width it has', () => {
  const long = 'a very long name of a factor that nobody would choose'
  expect(textWidth(fitText(long, 100, 12), 12)).toBeLessThanOrEqual(100)
  expect(fitText('short', 100, 12)).toBe('short')
  for (const each of wrapText(`${long} ${'w'.repeat(80)}`, 100, 12))
    expect(textWidth(each, 12)).toBeLessThanOrEqual(100)
  expect(wrapText('', 100, 12)).toEqual([])
})

test('labels of two points at one place do not cover each other', () => {
  const frame = { left: 0, right: 200, top: 0, bottom: 200 }
  const places = placeLabels(
    [
      { x: 100, y: 100, text: 'Q1' },
      { x: 100, y: 100, text: 'Q2' },
    ],
    frame,
  )
  expect(places[0]).not.toEqual(places[1])
  const [atEdge] = placeLabels([{ x: 198, y: 100, text: 'Q1' }], frame)
  expect(atEdge!.anchor).toBe('end')
})

test('what reaches out of a picture is found by these tests', () => {
  const svg = `<svg viewBox="0 0 100 50">${words(90, 20, 'too long for its place')}${words(10, 20, 'in')}</svg>`
  expect(overflowing(readSvg(svg))).toHaveLength(1)
  expect(() => readSvg('<svg><g></svg>')).toThrow()
})

test('a picture that cannot be drawn says why, inside its edges', () => {
  const elements = readSvg(emptyPicture('scatter', `There is nothing to draw ${'yet '.repeat(60)}<b>`, 320))
  expect(overflowing(elements)).toEqual([])
  expect(elements.find(({ name }) => name === 'desc')!.text).toContain('<b>')
})
