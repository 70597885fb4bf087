import { describe, expect, it } from 'vitest'
import { Backlog } from '../../hub/rehearsal/backlog.ts'
import { deadClock, goodClock } from '../../hub/rehearsal/board-clock.ts'
import { planBoards } from '../../hub/rehearsal/board-plan.ts'
import { columnsLine } from '../../hub/rehearsal/columns-line.ts'
import { garbageLine } from '../../hub/rehearsal/garbage-lines.ts'
import { requestLines, understandRequest } from '../../hub/rehearsal/hub-request.ts'
import { checksumTrailer } from '../../hub/rehearsal/line-checksum.ts'
import type { Sample } from '../../hub/rehearsal/sampling.ts'
import { chanceOf } from '../../hub/rehearsal/seeded-chance.ts'
import { packText } from '../../hub/rehearsal/senml-pack.ts'

const sample = (instantMs: number): Sample => ({
  instantMs,
  records: [
    { channel: 'ph', unit: 'mV', signal: 84.2, truth: 5.5, quantity: 'soil_ph', quadrat: 'Q1', fault: null },
    {
      channel: 'wind',
      unit: 'Hz',
      signal: 0.4,
      truth: 0.6,
      quantity: 'wind_speed',
      quadrat: 'Q1',
      fault: null,
    },
  ],
})

function oneMessage(instantMs: number) {
  const backlog = new Backlog(7, 10, () => {})
  backlog.add(sample(instantMs))
  return backlog.due(0, 1, 1000)[0]!
}

describe('a line with its checksum', () => {
  it('ends in 29B1 for 123456789, the catalogue’s check value of CRC-16/IBM-3740', () => {
    expect(checksumTrailer(Buffer.from('123456789'))).toBe('#29B1')
  })
})

describe('a pack', () => {
  it('tells seconds before sending on a board without a clock, afresh at each sending', () => {
    const message = oneMessage(100_000)
    const pack = JSON.parse(packText('fern-1', message, 112_500, { kind: 'relative-records' }))
    expect(pack).toEqual([
      { bn: 'fern-1/', n: 'startup', v: 7 },
      { n: 'message', v: 1 },
      { n: 'ph', u: 'mV', v: 84.2, t: -12.5 },
      { n: 'wind', u: 'Hz', v: 0.4, t: -12.5 },
    ])
    const later = JSON.parse(packText('fern-1', message, 130_000, { kind: 'relative-base' }))
    expect(later[0].bt).toBe(-30)
    expect(later[2]).toEqual({ n: 'ph', u: 'mV', v: 84.2 })
  })

  it('tells Unix time on a board with a clock', () => {
    const style = { kind: 'clock', clock: goodClock(1) } as const
    const pack = JSON.parse(packText('moss-2', oneMessage(1_780_000_000_250), 1_780_000_009_000, style))
    expect(pack[0].bt).toBe(1_780_000_000.25)
  })
})

describe('a clock', () => {
  it('is set by the hub, but not for the delay of a message', () => {
    const clock = goodClock(1)
    clock.set(1000.4, 1_000_000)
    expect(clock.secondsAt(1_000_000)).toBe(1000)
    clock.set(1060, 1_000_000)
    expect(clock.secondsAt(1_000_000)).toBe(1060)
  })

  it('without battery says 1970, 2000 and next year by turns, and forgets what it is told', () => {
    const start = Date.UTC(2026, 5, 12)
    const clock = deadClock(start, 60)
    clock.set(start / 1000, start)
    const yearAt = (elapsed: number) =>
      new Date(clock.secondsAt(start + elapsed * 1000) * 1000).getUTCFullYear()
    expect([yearAt(30), yearAt(90), yearAt(150), yearAt(200)]).toEqual([1970, 2000, 2027, 1970])
  })
})

describe('a backlog', () => {
  it('keeps a message until it is acknowledged and sends it again after the time-out', () => {
    const backlog = new Backlog(7, 10, () => {})
    for (const at of [1, 2, 3]) backlog.add(sample(at))
    const first = backlog.due(0, 2, 1000)
    expect(first.map(({ number }) => number)).toEqual([1, 2])
    for (const message of first) message.sentAtRealMs = 0
    expect(backlog.due(999, 2, 1000)).toEqual([])
    expect(backlog.forget(1)).toBe(true)
    expect(backlog.forget(1)).toBe(false)
    expect(backlog.due(999, 2, 1000).map(({ number }) => number)).toEqual([3])
    expect(backlog.due(1000, 2, 1000).map(({ number }) => number)).toEqual([2, 3])
  })

  it('drops the oldest when full, and says how many it dropped', () => {
    const dropped: number[] = []
    const backlog = new Backlog(7, 2, ({ number }) => dropped.push(number))
    for (const at of [1, 2, 3, 4]) backlog.add(sample(at))
    expect(dropped).toEqual([1, 2])
    expect(backlog.due(0, 9, 0).map((message) => message.dropped)).toEqual([1, 2])
  })
})

describe('columns', () => {
  it('are printed with semicolons and decimal commas', () => {
    expect(columnsLine(sample(0), 35.9)).toBe('35;0;0;84,2;0;0,4')
  })
})

describe('a request', () => {
  it('is understood in the protocol’s words, and ignored otherwise', () => {
    expect(understandRequest('kept 7 42')).toEqual({ kind: 'kept', startup: 7, message: 42 })
    expect(understandRequest('who\r')).toEqual({ kind: 'who' })
    expect(understandRequest('time 1780000000.250')).toEqual({ kind: 'time', unixSeconds: 1_780_000_000.25 })
    expect(understandRequest('every 2.5')).toEqual({ kind: 'every', seconds: 2.5 })
    for (const text of ['', 'kept 7', 'every', 'every 0', 'every often', 'time', 'sing', 'who 1']) {
      expect(understandRequest(text)).toBeNull()
    }
  })

  it('is the same wherever the cable cuts it', () => {
    const text = Buffer.from('who\r\nkept 7 42\n')
    for (let cut = 0; cut <= text.length; cut += 1) {
      const lines: string[] = []
      const take = requestLines((line) => lines.push(line.trim()))
      take(text.subarray(0, cut))
      take(text.subarray(cut))
      expect(lines).toEqual(['who', 'kept 7 42'])
    }
  })
})

describe('garbage', () => {
  it('is one line each, and no message by any reading', () => {
    const chance = chanceOf(5)
    const kinds = new Set<string>()
    for (const plan of planBoards(8, true)) {
      for (let turn = 0; turn < 50; turn += 1) {
        const { what, bytes } = garbageLine(plan, chance, turn, turn)
        kinds.add(what)
        expect(bytes.includes(0x0a) || bytes.includes(0x0d)).toBe(false)
        expect(isMessage(bytes, plan.link)).toBe(false)
      }
    }
    expect([...kinds].sort()).toEqual([
      'half a line',
      'heading',
      'invalid UTF-8',
      'not a number',
      'random bytes',
      'wrong checksum',
    ])
  })

  function isMessage(bytes: Buffer, link: string): boolean {
    let text: string
    try {
      text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    } catch {
      return false
    }
    const [, body = text, trailer] = /^(.*)(#[0-9A-F]{4})$/.exec(text) ?? []
    if (link !== 'mqtt' && trailer && checksumTrailer(Buffer.from(body)) !== trailer) return false
    if (link === 'columns') {
      const cells = body.split(';')
      return cells.length === 6 && cells.every((cell) => /^-?\d+(,\d+)?$/.test(cell))
    }
    try {
      JSON.parse(body)
      return true
    } catch {
      return false
    }
  }
})
