import { describe, expect, test } from 'vitest'
import { judge } from '../../hub/board-check/judge.ts'
import type { Point } from '../../hub/board-check/point.ts'
import { isSenmlUnit } from '../../hub/board-check/senml-units.ts'
import type { CheckEvent, Transcript } from '../../hub/board-check/transcript.ts'
import { withTrailer } from '../../hub/wire/checksum.ts'

const START_MS = Date.UTC(2026, 5, 12, 9)

interface Change {
  board?: string
  unit?: string
  trailer?: boolean
  number?: number
  value?: number
  startup?: number
  seconds?: number
  more?: string
}

/** A pack of one signal, as a good board on a cable sends it; or with one thing changed. */
function pack(number: number, change: Change = {}): string {
  const {
    board = 'sedge-1',
    unit = 'mV',
    trailer = true,
    value = number,
    startup = 7,
    seconds = -0.5,
  } = change
  const text = `[{"bn":"${board}/","n":"startup","v":${startup}},{"n":"message","v":${number}},{"n":"ph","u":"${unit}","v":${value},"t":${seconds}}${change.more ?? ''}]`
  return trailer ? withTrailer(text) : text
}

const at = (second: number) => START_MS + second * 1000
const heard = (second: number, text: string, qos?: number): CheckEvent => ({
  kind: 'heard',
  atMs: at(second),
  text,
  ...(qos === undefined ? {} : { qos }),
})
const said = (second: number, words: string): CheckEvent => ({ kind: 'said', atMs: at(second), words })
const about = '[{"bn":"sedge-1/","n":"about","vs":"a board of these tests"}]'

/** A good board's side of a check on a cable, with some of its events left out or changed. */
function goodEvents(): CheckEvent[] {
  return [
    said(0, 'who'),
    heard(0.1, withTrailer(about)),
    said(0.2, 'every 2'),
    heard(2.7, pack(1)),
    heard(4.7, pack(1, { seconds: -2.5 })),
    said(4.8, 'kept 7 1'),
    heard(4.9, pack(2, { seconds: -0.7 })),
    said(4.95, 'kept 7 2'),
    heard(6.7, pack(3)),
    said(6.8, 'kept 7 3'),
    said(7, 'every 1'),
    heard(8.5, pack(4)),
    heard(9.5, pack(5)),
    said(10, `time ${at(110) / 1000}`),
    heard(12.5, pack(6, { seconds: at(112) / 1000 })),
    said(13, `time ${at(13) / 1000}`),
    said(13, 'marmalade 7'),
    heard(14.5, pack(7, { seconds: at(14) / 1000 })),
  ]
}

function points(
  events: CheckEvent[],
  way: Transcript['way'] = 'serial',
  board: string | null = null,
): Point[] {
  return judge({ way, board, events })
}

function verdictOf(name: string, judged: Point[]): string {
  const point = judged.find((one) => one.name === name)
  return point ? `${point.verdict}: ${point.saw}` : 'no such point'
}

const withChange = (change: (event: CheckEvent) => CheckEvent | null) =>
  goodEvents().flatMap((event) => change(event) ?? [])
const instead = (second: number, text: string) =>
  withChange((event) => (event.kind === 'heard' && event.atMs === at(second) ? { ...event, text } : event))

describe('judging what a board has said', () => {
  test('a board that keeps to the protocol is right in all points but the one that cannot be asked for', () => {
    expect(points(goodEvents()).filter(({ verdict }) => verdict !== 'right')).toEqual([
      expect.objectContaining({ name: 'reset', verdict: 'not tested' }),
    ])
  })

  test.each<[string, CheckEvent[], RegExp]>([
    ['SenML', instead(6.7, withTrailer('[{"n":"ph"}]')), /no value/],
    ['SenML', instead(6.7, '512;23.1'), /not JSON: 512;23\.1/],
    ['name', instead(6.7, pack(3, { board: 'x'.repeat(65) })), /at most 64/],
    ['name', instead(6.7, pack(3, { board: 'sedge-2' })), /several names: sedge-1, sedge-2/],
    ['units', instead(6.7, pack(3, { unit: 'celsius' })), /ph: "celsius" is no SenML unit/],
    ['units', instead(6.7, pack(3, { unit: '' })), /ph has no unit/],
    ['checksum', instead(6.7, `${pack(3, { trailer: false })}#0000`), /states checksum 0000/],
    ['checksum', instead(6.7, pack(3, { trailer: false })), /missing on some lines/],
    ['length', instead(6.7, pack(3, { more: ' '.repeat(70_000) })), /65536 are read/],
    ['numbers', instead(6.7, pack(9)), /message 2 is followed by 9, and none is said to be dropped/],
    ['numbers', instead(8.5, pack(2.5)), /2\.5 is no whole number/],
    ['numbers', instead(6.7, '[{"n":"sedge-1/ph","u":"mV","v":1}]'), /no startup and message/],
    ['repeats', instead(4.7, pack(1, { value: 99, seconds: -2.5 })), /came as ph 1, then as ph 99/],
    [
      'repeats',
      withChange((event) => (event.atMs === at(4.7) ? null : event)),
      /unanswered and was not sent again/,
    ],
    ['kept', instead(8.5, pack(1, { seconds: -6.3 })), /sent again 3\.7 s after "kept"/],
    ['times', instead(4.7, pack(1, { seconds: 1 })), /another time .*afresh/],
    ['times', instead(6.7, pack(3, { seconds: 30 })), /in the future/],
    ['times', instead(6.7, pack(3, { seconds: -6_000_000 })), /60 days ago/],
    ['who', withChange((event) => (event.atMs === at(0.1) ? null : event)), /no "about"/],
    ['every', instead(9.5, pack(5, { seconds: -1.2 })), /asked for 1 s, it samples every 0\.30 s/],
    ['time', instead(12.5, pack(6, { seconds: at(112) / 1000 - 600 })), /its time is 600\.5 s off/],
    ['unknown words', instead(14.5, pack(7, { startup: 8 })), /restarted it/],
    [
      'unknown words',
      withChange((event) => (event.atMs === at(14.5) ? null : event)),
      /nothing came any more/,
    ],
    ['unknown words', [...goodEvents(), heard(15, withTrailer('what?'))], /answered by what\?/],
  ])('%s is wrong when it is (%#)', (name, events, saw) => {
    const verdict = verdictOf(name, points(events))
    expect(verdict).toMatch(/^wrong: /)
    expect(verdict).toMatch(saw)
  })

  test('what was not seen is not tested: no clock, no checksum, no numbered message', () => {
    const clockless = instead(12.5, pack(6)).map((event) =>
      event.kind === 'heard' && event.atMs === at(14.5) ? { ...event, text: pack(7) } : event,
    )
    expect(verdictOf('time', points(clockless))).toBe('not tested: it keeps no clock: its times are relative')
    const bare = withChange((event) =>
      event.kind === 'heard' ? { ...event, text: event.text.replace(/#....$/, '') } : event,
    )
    expect(verdictOf('checksum', points(bare))).toMatch(/^not tested: .*advised/)
    expect(verdictOf('numbers', points([heard(0, about)]))).toMatch(/^not tested/)
    expect(verdictOf('every', points([heard(0, about)]))).toBe('not tested: it was not asked')
  })

  test('a gap is no fault when the board says how many messages it dropped', () => {
    const dropping = instead(8.5, pack(40, { more: ',{"n":"dropped","v":36}' })).filter(
      ({ atMs }) => atMs < at(9),
    )
    expect(verdictOf('numbers', points(dropping))).toMatch(/^right: start-up 7, messages 1 to 40/)
  })

  test('the first line of a port may lack its beginning; on MQTT nothing may', () => {
    const events = [heard(-1, 'v":12}]#1234'), ...goodEvents()]
    expect(verdictOf('SenML', points(events))).toMatch(/^right/)
    expect(verdictOf('SenML', points(events, 'mqtt'))).toMatch(/^wrong/)
  })

  test('on MQTT the quality of service, the link and the name of the topic are looked at', () => {
    const bare = pack(1, { trailer: false })
    const link = (text: string): CheckEvent => ({ kind: 'link', atMs: at(0), text, isRetained: true })
    const good = points([link('up'), heard(1, bare, 1)], 'mqtt', 'sedge-1')
    expect(good.filter(({ verdict }) => verdict === 'wrong')).toEqual([])
    expect(verdictOf('QoS 1', points([heard(1, bare, 0)], 'mqtt', 'sedge-1'))).toMatch(/^wrong: 1 of 1/)
    expect(verdictOf('link', points([heard(1, bare, 1)], 'mqtt', 'sedge-1'))).toMatch(/^wrong: nothing/)
    expect(verdictOf('link', points([link('lost'), heard(1, bare, 1)], 'mqtt', 'sedge-1'))).toMatch(
      /^wrong: "lost"/,
    )
    expect(verdictOf('name', points([heard(1, bare, 1)], 'mqtt', 'rush-1'))).toMatch(
      /^wrong: it speaks for "sedge-1"/,
    )
  })

  test('a message that was under way when the board was told the time goes by the time before', () => {
    const events = goodEvents()
    events.splice(-1, 0, heard(13.4, pack(7, { seconds: at(113) / 1000 })))
    events[events.length - 1] = heard(14.5, pack(8, { seconds: at(14) / 1000 }))
    expect(verdictOf('times', points(events))).toMatch(/^right/)
    const late = [...events, heard(16, pack(9, { seconds: at(116) / 1000 }))]
    expect(verdictOf('times', points(late))).toMatch(/^wrong: in the future/)
  })

  test('two start-ups heard are a reset seen', () => {
    const events = [heard(0, pack(3)), heard(2, pack(1, { startup: 8 }))]
    expect(verdictOf('reset', points(events))).toMatch(/^right: start-ups 7, 8/)
  })

  test('nothing heard is one wrong point', () => {
    expect(points([said(0, 'who')])).toEqual([{ name: 'speaks', verdict: 'wrong', saw: 'nothing came' }])
  })

  test('units of the registry and its secondary ones are known, near misses are not', () => {
    for (const unit of ['mV', 'Cel', 'lx', 'Ohm', 'Hz', 'count', '/', 'pH', 'm/s', '%EL'])
      expect(isSenmlUnit(unit)).toBe(true)
    for (const unit of ['', 'C°', 'ohm', 'celsius', 'hz', 'counts']) expect(isSenmlUnit(unit)).toBe(false)
  })
})
