import { expect, test } from 'vitest'
import { boxNumbers } from '../../../../hub/study/pictures/box-numbers.ts'
import { boxPlots } from '../../../../hub/study/pictures/box-plots.ts'
import { readSvg } from './read-svg.ts'

test('boxNumbers gives the quartiles of 1 to 10 as R does, and whiskers to the ends', () => {
  // R: quantile(1:10) is 1, 3.25, 5.5, 7.75, 10 (its default, type 7; from memory)
  expect(boxNumbers([10, 9, 8, 7, 6, 5, 4, 3, 2, 1])).toEqual({
    lowerQuartile: 3.25,
    median: 5.5,
    upperQuartile: 7.75,
    whiskerLow: 1,
    whiskerHigh: 10,
  })
})

test('boxNumbers lets a whisker end at the last value within 1.5 times the box', () => {
  // by hand: quartiles 2 and 4, box 2, so values from −1 to 7 are within reach and 7.01 is not
  expect(boxNumbers([1, 2, 3, 4, 7.01])).toMatchObject({ lowerQuartile: 2, upperQuartile: 4, whiskerHigh: 4 })
  expect(boxNumbers([1, 2, 3, 4, 7])).toMatchObject({ whiskerHigh: 7 })
  expect(boxNumbers([-1.01, 2, 3, 4, 5])).toMatchObject({ whiskerLow: 2 })
})

test('fewer than five values have no box, five have one', () => {
  expect(boxNumbers([])).toBeNull()
  expect(boxNumbers([1, 2, 3, 4])).toBeNull()
  expect(boxNumbers([1, 2, 3, 4, 5])).not.toBeNull()
})

test('a box is drawn where its numbers lie on the axis, with every value as a ring', () => {
  const values = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]
  const elements = readSvg(
    boxPlots({ factors: [{ name: 'pH', groups: [{ zone: 'shade', values }] }], notes: [] }, 400),
  )
  const box = elements.find(({ name, attributes }) => name === 'rect' && attributes['stroke'] !== undefined)!
  const rings = elements.filter(({ name }) => name === 'circle')
  expect(rings).toHaveLength(values.length)
  // the rings give the scale: 1 and 10 are nine units apart
  const [one, ten] = [Number(rings[0]!.attributes['cy']), Number(rings[9]!.attributes['cy'])]
  const perUnit = (one - ten) / 9
  const top = Number(box.attributes['y'])
  expect((one - top) / perUnit + 1).toBeCloseTo(7.75, 1)
  expect(Number(box.attributes['height']) / perUnit).toBeCloseTo(7.75 - 3.25, 1)
})
