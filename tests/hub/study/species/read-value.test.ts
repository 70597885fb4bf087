import { expect, test } from 'vitest'
import type { SpeciesMeasure } from '../../../../hub/contract/species.ts'
import { readNumber, readValue } from '../../../../hub/study/species/read-value.ts'

const settings = { tracePercent: 0.5, outOf: null, cross: null }
const read = (text: string, measure: SpeciesMeasure) => readValue({ kind: 'text', text }, measure, settings)

test('a number has no more digits than a number can have', () => {
  expect(readNumber('9'.repeat(300))).not.toBeNull()
  expect(readNumber('9'.repeat(400))).toBeNull()
  expect(readNumber('1e999')).toBeNull()
})

test.each([
  ['0/0', 'grid-hits'],
  ['3/-5', 'grid-hits'],
  ['1e300/1e999', 'touches'],
  ['9'.repeat(300), 'count'],
  ['1000001', 'count'],
  ['1e999', 'cover-percent'],
] as const)('%s is no value of %s', (text, measure) => {
  expect(read(text, measure).state).toBe('fault')
})

test('what may just be so is one', () => {
  expect(read('0/1', 'grid-hits')).toMatchObject({ state: 'value', value: 0, present: false })
  expect(read('1000000', 'count')).toMatchObject({ state: 'value', value: 1_000_000 })
})
