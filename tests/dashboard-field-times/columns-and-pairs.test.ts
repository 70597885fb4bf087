import { expect, test } from 'vitest'
import {
  cellsOf,
  freshColumnForm,
  guessColumns,
  lastLines,
  readColumnForm,
} from '../../dashboard/column-form.ts'
import { pairPlot } from '../../dashboard/field/pairing/pair-geometry.ts'
import { readColumns } from '../../hub/contract/read-columns.ts'

// expected values follow from the lines as written

test.each([
  ['512,23.1,880', 'comma', 'point'],
  ['512, 23.1, 880', 'comma', 'point'],
  ['512;23,1;880', 'semicolon', 'comma'],
  ['512\t23.1', 'tab', 'point'],
  ['512 23,1 880', 'space', 'comma'],
  ['512  23.1', 'space', 'point'],
  ['512', 'space', 'point'],
] as const)(
  '“%s” is guessed as %s with a decimal %s, and the hub reads it so',
  (line, separator, decimal) => {
    expect(guessColumns(line)).toEqual({ separator, decimal })
    const read = readColumnForm(freshColumnForm(undefined, line))
    if (!('map' in read)) throw new Error('no map')
    const signals = readColumns(line, read.map)
    expect(Array.isArray(signals) && signals.map(({ value }) => value)).toEqual(
      cellsOf(line, separator).map((cell) => Number(cell.replace(',', '.'))),
    )
  },
)

test('a column left aside is null in the map; a name twice, a bad name, or no column at all is refused', () => {
  const form = freshColumnForm(undefined, '512,23.1,880')
  const [first, second, third] = form.columns
  const named = {
    ...form,
    columns: [{ ...first!, channel: 'ph', unit: 'mV' }, { ...second!, isUsed: false }, third!],
  }
  expect(readColumnForm(named)).toEqual({
    map: {
      separator: 'comma',
      decimal: 'point',
      channels: [{ channel: 'ph', unit: 'mV' }, null, { channel: 'c3', unit: '' }],
    },
  })
  expect(readColumnForm({ ...form, columns: [first!, { ...second!, channel: 'c1' }] })).toHaveProperty(
    'wrong',
  )
  expect(readColumnForm({ ...form, columns: [{ ...first!, channel: 'soil pH' }] })).toHaveProperty('wrong')
  expect(readColumnForm({ ...form, columns: [{ ...first!, isUsed: false }] })).toHaveProperty('wrong')
})

test('the last lines are this board’s, without line feed and checksum, each once, and never a pack', () => {
  const row = (shown: string, board: string | null, source = 'serial:/dev/ttyUSB0', code = 'E_COLUMNS') => ({
    id: 1,
    arrived: '2026-06-12T10:00:00Z',
    source,
    board,
    code,
    message: '',
    remedy: '',
    shown,
    length: shown.length,
  })
  const board = { name: 'fern-1', source: 'serial:/dev/ttyUSB0' }
  expect(
    lastLines(board, '512,23.1··', [
      row('512;23,1#29B1·', 'fern-1'),
      row('512,23.1·', null),
      row('7,7·', null, 'serial:/dev/ttyUSB1'),
      row('8,8·', 'moss-2'),
      row('garbage', 'fern-1', 'serial:/dev/ttyUSB0', 'E_CHECKSUM'),
      row('[{"n":"ph"}·', 'fern-1', 'serial:/dev/ttyUSB0', 'E_LINE_UNREADABLE'),
    ]),
  ).toEqual(['512,23.1', '512;23,1'])
})

test('pairs: light on whole decades, the percentage from nothing up, a suspect pair does not count', () => {
  const pair = (timeMs: number, lux: number, openLux: number | null, remarks: string[] = []) => ({
    timeMs,
    lux,
    openLux,
    percent: openLux === null ? null : (100 * lux) / openLux,
    remarks,
  })
  const plot = pairPlot(
    [pair(0, 100, 10_000), pair(10, 1000, 10_000, ['unsteady']), pair(20, 500, null, ['stale'])],
    116,
    100,
    50,
  )
  expect(plot.lux).toEqual({ low: 100, high: 10_000 })
  expect(plot.percentTop).toBe(10)
  // 1000 lx is half way between 100 and 10 000 on a logarithmic scale; 1 % is a tenth of 10 %
  expect(plot.places).toEqual([
    { x: 8, quadratY: 100, openY: 0, percentY: 45, isCounted: true },
    { x: 58, quadratY: 50, openY: 0, percentY: 0, isCounted: false },
    expect.objectContaining({ x: 108, openY: null, percentY: null, isCounted: false }),
  ])
  expect(pairPlot([], 100, 100, 50)).toEqual({ places: [], lux: null, percentTop: 1 })
  expect(pairPlot([pair(5, 0, 10)], 100, 100, 50).places[0]).toMatchObject({
    x: 50,
    quadratY: null,
    percentY: 50,
  })
})
