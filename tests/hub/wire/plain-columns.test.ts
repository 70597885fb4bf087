import { describe, expect, test } from 'vitest'
import type { ColumnMap } from '../../../hub/contract/survey.ts'
import { readColumns, readUnmappedColumns } from '../../../hub/wire/plain-columns.ts'

const channels = [
  { channel: 'ph', unit: 'mV' },
  { channel: 'temperature', unit: 'Cel' },
  { channel: 'light', unit: 'count' },
]
const map = (over: Partial<ColumnMap>): ColumnMap => ({
  separator: 'comma',
  decimal: 'point',
  channels,
  ...over,
})
const values = [
  { channel: 'ph', unit: 'mV', value: -12.5 },
  { channel: 'temperature', unit: 'Cel', value: 23.1 },
  { channel: 'light', unit: 'count', value: 880 },
]

describe('the four separators and both decimal signs give the same signals', () => {
  const lines: [string, Partial<ColumnMap>][] = [
    ['-12.5,23.1,880', {}],
    ['-12,5;23,1;880', { separator: 'semicolon', decimal: 'comma' }],
    ['-12.5\t23.1\t880', { separator: 'tab' }],
    ['  -12.5   23.1 880  ', { separator: 'space' }],
    ['-12.5, 23.1 , 8.8e2', {}],
  ]
  for (const [line, over] of lines)
    test(JSON.stringify(line), () => expect(readColumns(line, map(over))).toEqual(values))
})

test('a column that is set aside is not read, even when it is no number', () => {
  expect(readColumns('12:30,5', map({ channels: [null, channels[0]!] }))).toEqual([
    { channel: 'ph', unit: 'mV', value: 5 },
  ])
})

test('too few and too many columns are refused with what was expected', () => {
  for (const line of ['1,2', '1,2,3,4'])
    expect(readColumns(line, map({}))).toMatchObject({
      message: expect.stringContaining('the map expects 3'),
    })
})

test('what is not a finite decimal number is refused by column', () => {
  for (const cell of ['', 'nan', 'NaN', 'inf', '0x1F', '1e999', '1,5', '--2', '１２'])
    expect(readColumns(`${cell};2;3`, map({ separator: 'semicolon' }))).toMatchObject({
      message: expect.stringContaining('column 1 (ph)'),
    })
})

test('a line nobody has described becomes c1, c2 …', () => {
  expect(readUnmappedColumns('512,23.1,880')).toEqual([
    { channel: 'c1', unit: '', value: 512 },
    { channel: 'c2', unit: '', value: 23.1 },
    { channel: 'c3', unit: '', value: 880 },
  ])
})

test('a line that could be read in two ways, or is no line of numbers, is left to a column map', () => {
  for (const line of ['12,5;23,1', 'ready', 'pH: 6.5', '1,,2', '', '1, 2; 3'])
    expect(readUnmappedColumns(line)).toMatchObject({ refused: true })
})
