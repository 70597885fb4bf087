import { describe, expect, test } from 'vitest'
import { kiteOutline, kiteRuns } from '../../../../hub/study/pictures/kite.ts'
import { transectProfile } from '../../../../hub/study/pictures/transect-profile.ts'
import { readSvg } from './read-svg.ts'

// the project's domain map, story A14: bramble touched at 9 of 13 marks in the shade and at 7 of 28 in the open, so
// 69.2 % and 25.0 %; a half-width is cover / 2 on a scale where 100 % is the full width (domain map, 2.9)
const SHADE = (100 * 9) / 13
const OPEN = (100 * 7) / 28

describe('a kite', () => {
  test('is half of the cover wide on each side of its line', () => {
    const [run] = kiteRuns(
      [
        { at: 0, value: SHADE },
        { at: 50, value: OPEN },
      ],
      100,
      200,
    )
    expect(run!.map(({ half }) => Number(half.toFixed(1)))).toEqual([69.2, 25])
    expect(kiteOutline(run!, 100).map(({ y }) => Number(y.toFixed(1)))).toEqual([30.8, 75, 125, 169.2])
  })

  test('closes to its line at zero and goes on', () => {
    const stations = [10, 0, 20].map((value, index) => ({ at: index, value }))
    expect(kiteRuns(stations, 100, 100)).toEqual([
      [
        { at: 0, half: 5 },
        { at: 1, half: 0 },
        { at: 2, half: 10 },
      ],
    ])
  })

  test('breaks where nothing was recorded', () => {
    const stations = [10, null, 20, 30, null, null, 5].map((value, index) => ({ at: index, value }))
    expect(kiteRuns(stations, 100, 100).map((run) => run.map(({ at }) => at))).toEqual([[0], [2, 3], [6]])
    expect(kiteRuns([], 100, 100)).toEqual([])
    expect(kiteRuns([{ at: 0, value: null }], 100, 100)).toEqual([])
  })

  test('is drawn as wide in the profile as the bar beside it says', () => {
    const svg = transectProfile(
      {
        transect: 'T1',
        lengthMetres: 20,
        zones: [],
        stations: [0, 5, 10, 20].map((distanceMetres) => ({
          distanceMetres,
          labels: [`Q${distanceMetres}`],
        })),
        factors: [],
        kites: [{ species: 'bramble', values: [SHADE, OPEN, 0, null] }],
        kiteScale: { value: 100, text: '100 %', meaning: 'full width is 100 % cover' },
        notes: [],
      },
      800,
      'p',
    )
    const elements = readSvg(svg)
    const outline = elements.find(
      ({ name, attributes }) => name === 'path' && attributes['d']?.endsWith('Z'),
    )!
    const numbers = outline.attributes['d']!.match(/-?[\d.]+/g)!.map(Number)
    const points = numbers.flatMap((x, index) => (index % 2 === 0 ? [{ x, y: numbers[index + 1]! }] : []))
    const widthAt = (index: number) => points.at(-1 - index)!.y - points[index]!.y
    // the upright bar at the left: the only upright line that has its two ends marked
    const bar = elements.find(
      ({ name, attributes }) =>
        name === 'line' && attributes['x1'] === attributes['x2'] && attributes['stroke'] === '#555',
    )!
    const full = Number(bar.attributes['y2']) - Number(bar.attributes['y1'])
    expect((100 * widthAt(0)) / full).toBeCloseTo(69.2, 1)
    expect((100 * widthAt(1)) / full).toBeCloseTo(25, 1)
    expect(widthAt(2)).toBe(0)
    // 0, 5 and 10 m lie evenly
    expect(points[1]!.x - points[0]!.x).toBeCloseTo(points[2]!.x - points[1]!.x, 1)
    // the station at 20 m was not recorded: the outline ends before it and a sign says so
    expect(points).toHaveLength(6)
    expect(elements.filter(({ name, text }) => name === 'text' && text === '?')).toHaveLength(1)
  })
})
