import { expect, test } from 'vitest'
import { linkNumbers } from '../../../../hub/study/report/links.ts'
import {
  decimalsOf,
  fixed,
  listed,
  listedInShort,
  measuredText,
  significant,
} from '../../../../hub/study/report/number-text.ts'
import { fromToText, lengthText, momentText, zoneOrUtc } from '../../../../hub/study/report/time-text.ts'

test('a value is printed down to the first digit of its ±, two when that begins with 1', () => {
  // the project's domain map, 2.10: one quadrat of pH, U₉₅ ≈ 0.24; rounding as is common when a result is written down
  expect(measuredText('soil_ph', 'pH', 5.6487, 0.24)).toMatchObject({ value: '5.6', interval: '±\u00a00.2' })
  expect(measuredText('soil_ph', 'pH', 5.6487, 0.16)).toMatchObject({
    value: '5.65',
    interval: '±\u00a00.16',
  })
  expect(measuredText('illuminance', 'lx', 23_456, 470)).toMatchObject({
    value: '23\u00a0500',
    interval: '±\u00a0500',
  })
  expect(measuredText('soil_moisture', '/', 0.7312, 0.021)).toMatchObject({
    value: '73',
    interval: '±\u00a02',
  })
})

test('without a ± the quantity’s own digits are printed, and that it is not known', () => {
  expect(measuredText('soil_ph', 'pH', 5.6487, null)).toMatchObject({ value: '5.65', interval: '±\u00a0?' })
  expect(decimalsOf(null)).toBeNull()
  expect(decimalsOf(0)).toBeNull()
})

test('significant digits round only what is beyond them', () => {
  expect(significant(176.3, 5)).toBe('176.30')
  expect(significant(0.003_456, 2)).toBe('0.0035')
  expect(significant(24_812, 3, 'lx')).toBe('24\u00a0800\u00a0lx')
  expect(significant(-0.5, 1)).toBe('−0.5')
  expect(significant(0, 3)).toBe('0')
  expect(fixed(-56.0197, 2, 'mV')).toBe('−56.02\u00a0mV')
})

test('names are listed, and of many only the first', () => {
  expect(listed(['A'])).toBe('A')
  expect(listed(['A', 'B', 'C'])).toBe('A, B and C')
  expect(listedInShort(['1', '2', '3', '4', '5', '6'])).toBe('1, 2, 3, 4, 5 and 6')
  expect(listedInShort(['1', '2', '3', '4', '5', '6', '7'])).toBe('1, 2, 3, 4, 5 and 2 more')
})

test('every number becomes a link with its unit, and the words between them do not', () => {
  const parts = linkNumbers('PH-1 read 5.65 (±\u00a00.16), 98.0\u00a0% of it.', '/x')
  expect(parts).toEqual([
    { text: 'PH-1', href: '/x' },
    ' read ',
    { text: '5.65', href: '/x' },
    ' (',
    { text: '±\u00a00.16', href: '/x' },
    '), ',
    { text: '98.0\u00a0%', href: '/x' },
    ' of it.',
  ])
  expect(linkNumbers('no figures', '/x')).toEqual(['no figures'])
})

test('times are those of the site, in summer time as well', () => {
  // London is one hour ahead of UTC in June
  expect(momentText('2026-06-12T09:00:00Z', 'Europe/London')).toBe('12\u00a0June\u00a02026, 10:00')
  expect(fromToText('2026-06-12T09:00:00Z', '2026-06-12T09:33:00Z', 'UTC')).toBe(
    '12\u00a0June\u00a02026, 09:00 to 09:33',
  )
  expect(fromToText('2026-06-12T09:00:00Z', '2026-06-13T09:33:00Z', 'UTC')).toContain('13\u00a0June')
  expect(zoneOrUtc('Nowhere/At-All')).toBe('UTC')
  expect(zoneOrUtc(undefined)).toBe('UTC')
  expect([0.5, 90, 600, 10_800, 259_200].map(lengthText)).toEqual(
    ['0.5 s', '90 s', '10 min', '3 h', '3 days'].map((text) => text.replace(' ', '\u00a0')),
  )
})
