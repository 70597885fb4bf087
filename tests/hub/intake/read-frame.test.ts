import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readFrame } from '../../../hub/intake/read-frame.ts'
import type { Frame } from '../../../hub/sources/source.ts'
import { withTrailer } from '../../../hub/wire/checksum.ts'

const arrivedMs = Date.UTC(2026, 5, 12, 9, 30)
const frame = (text: string | Uint8Array, over: Partial<Frame> = {}): Frame => ({
  source: 'serial:/dev/ttyUSB0',
  arrivedMs,
  format: 'line',
  board: null,
  bytes: typeof text === 'string' ? Buffer.from(text) : text,
  ...over,
})
const read = (text: string | Uint8Array, over: Partial<Frame> = {}) =>
  readFrame(frame(text, over), () => undefined)
const pack =
  '[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":42},{"n":"ph","u":"mV","v":84.2,"t":-0.5},{"n":"about","vs":"uno"}]'

describe('what a line says', () => {
  test('a pack with a checksum: board, numbering, signals and times', () => {
    expect(read(withTrailer(pack))).toEqual([
      {
        source: 'serial:/dev/ttyUSB0',
        board: 'sedge-1',
        arrivedMs,
        startup: 7,
        number: 42,
        timeOrigin: 'board seconds',
        bytes: Buffer.from(withTrailer(pack)),
        signals: [{ channel: 'ph', unit: 'mV', timeMs: arrivedMs - 500, signal: 84.2 }],
        about: 'uno',
      },
    ])
  })
  test('a message number without a start-up number numbers nothing', () => {
    expect(read('[{"bn":"a/","n":"message","v":1},{"n":"x","v":1}]')).toMatchObject([
      { startup: null, number: null },
    ])
  })
  test('a pack that names two boards is two arrivals with the same bytes', () => {
    const boards = read('[{"n":"a/x","v":1},{"n":"b/x","v":2}]')
    expect(boards).toMatchObject([{ board: 'a' }, { board: 'b' }])
  })
  test('a URN name becomes a board and a channel', () => {
    expect(read('[{"n":"urn:dev:ow:10e2073a01080063:voltage","v":1}]')).toMatchObject([
      { board: 'urn-dev-ow-10e2073a01080063', signals: [{ channel: 'voltage' }] },
    ])
  })
  test('unmapped numbers belong to a board named after its port', () => {
    expect(read('512,23.1')).toMatchObject([
      { board: 'port-dev-ttyUSB0', signals: [{ channel: 'c1' }, { channel: 'c2' }] },
    ])
  })
  test('true and false are the signals 1 and 0; text and data are kept in the message only', () => {
    expect(read('[{"n":"a/x","vb":true},{"n":"a/y","vs":"hello"},{"n":"a/z","vd":"aGk"}]')).toMatchObject([
      { signals: [{ channel: 'x', signal: 1 }] },
    ])
  })
})

describe('what cannot be read is refused with a code, and keeps its bytes', () => {
  const refused: [string, string | Uint8Array, string, Partial<Frame>?][] = [
    ['half a line', pack.slice(0, 50), 'E_LINE_UNREADABLE'],
    ['a greeting', 'Hello from the sketch', 'E_LINE_UNREADABLE'],
    ['binary noise', Uint8Array.from([0xff, 0xfe, 0x00, 0x80, 0xc3]), 'E_NOT_TEXT'],
    ['a wrong checksum', `${pack}#0000`, 'E_CHECKSUM'],
    ['a record without a name', '[{"v":1}]', 'E_SENML'],
    ['a record without a value', '[{"n":"a/x"}]', 'E_SENML'],
    ['NaN, which JSON does not know', '[{"n":"a/x","v":NaN}]', 'E_LINE_UNREADABLE'],
    ['a number that is infinite', '[{"n":"a/x","v":1e400}]', 'E_SENML'],
    ['a fractional message number', '[{"n":"a/message","v":1.5}]', 'E_SENML'],
    [
      'another board’s name on a topic',
      '[{"n":"b/x","v":1}]',
      'E_OTHER_BOARD',
      { format: 'pack', board: 'a' },
    ],
    ['a board name of 65 letters', `[{"n":"${'a'.repeat(65)}/x","v":1}]`, 'E_BOARD_NAME'],
    ['too many records', JSON.stringify(Array(1001).fill({ n: 'a/x', v: 1 })), 'E_TOO_MANY_RECORDS'],
  ]
  for (const [what, bytes, code, over] of refused)
    test(what, () => {
      const answer = read(bytes, over)
      expect(answer).toMatchObject([{ code, arrivedMs }])
      const [first] = answer
      expect(Buffer.from(first!.bytes)).toEqual(Buffer.from(frame(bytes).bytes))
      expect('message' in first! && first.message.length > 20).toBe(true)
    })
  test('a line that does not fit the column map names port, board and the columns expected', () => {
    const map = {
      separator: 'comma' as const,
      decimal: 'point' as const,
      channels: [
        { channel: 'ph', unit: 'mV' },
        { channel: 'lux', unit: 'lx' },
      ],
    }
    const [answer] = readFrame(frame('1,2,3', { board: 'uno-1' }), () => map)
    expect(answer).toMatchObject({
      code: 'E_COLUMNS',
      message: expect.stringContaining('3 columns, the map expects 2 (ph, lux)'),
    })
  })
})

test('no bytes make the decoder throw, and what it reads is finite', () => {
  const bytes = fc.oneof(
    fc.uint8Array({ maxLength: 300 }),
    fc.string().map((text) => Buffer.from(text)),
    // a good line with one byte changed
    fc.tuple(fc.nat(pack.length - 1), fc.integer({ min: 0, max: 255 })).map(([place, byte]) => {
      const changed = Buffer.from(pack)
      changed[place] = byte
      return changed
    }),
  )
  fc.assert(
    fc.property(
      bytes,
      fc.constantFrom('line' as const, 'pack' as const, 'columns' as const),
      (input, format) => {
        for (const item of read(input, { format }))
          if ('signals' in item)
            for (const { signal, timeMs } of item.signals) {
              expect(Number.isFinite(signal)).toBe(true)
              expect(Number.isSafeInteger(timeMs)).toBe(true)
            }
      },
    ),
    { numRuns: 3000 },
  )
})
