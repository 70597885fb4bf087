import { describe, expect, test } from 'vitest'
import type { DepartureItem } from '../../../../hub/contract/field.ts'
import { type DepartureFacts, departureOf } from '../../../../hub/survey/field/departure.ts'
import { type BoardFacts, boardItems } from '../../../../hub/survey/field/departure-boards.ts'
import { exampleSurvey, nineOClock } from '../../../support/example-survey.ts'

const fine: BoardFacts = {
  board: 'sedge-1',
  lastHeardMs: nineOClock - 2000,
  intervalSeconds: 2,
  messages: 200,
  missed: 0,
  trouble: null,
  battery: null,
  clockAheadSeconds: null,
  hasImpossibleClock: false,
}
const items = (over: Partial<BoardFacts>) => boardItems({ ...fine, ...over }, nineOClock)
const stateOf = (over: Partial<BoardFacts>, about: DepartureItem['about'] = 'boards', part = '') =>
  items(over).find((item) => item.about === about && item.title.endsWith(part))!.state

// all limits of this page: common practice, no source
describe('before leaving: a board', () => {
  test('heard in the last minute, or within three of its intervals where those are longer', () => {
    expect(stateOf({ lastHeardMs: nineOClock - 60_000 })).toBe('ok')
    expect(stateOf({ lastHeardMs: nineOClock - 60_001 })).toBe('fail')
    expect(stateOf({ lastHeardMs: nineOClock - 90_000, intervalSeconds: 30 })).toBe('ok')
    expect(stateOf({ lastHeardMs: nineOClock - 90_001, intervalSeconds: 30 })).toBe('fail')
    expect(stateOf({ lastHeardMs: null })).toBe('fail')
  })
  test('missed messages are told with their share; a tenth of all fails', () => {
    const [item] = items({ messages: 198, missed: 2 })
    expect(item).toMatchObject({ state: 'look', words: 'Heard 2 s ago; 2 of 200 messages missed (1.0 %).' })
    expect(stateOf({ messages: 90, missed: 10 })).toBe('fail')
    expect(stateOf({ messages: 91, missed: 9 })).toBe('look')
  })
  test('a clock that is off by seconds is looked at, by a minute mended; none is none to worry about', () => {
    expect(stateOf({ clockAheadSeconds: 1.9 }, 'clocks')).toBe('ok')
    expect(stateOf({ clockAheadSeconds: -2 }, 'clocks')).toBe('look')
    expect(stateOf({ clockAheadSeconds: 60 }, 'clocks')).toBe('fail')
    expect(stateOf({ clockAheadSeconds: null }, 'clocks')).toBe('ok')
    expect(stateOf({ hasImpossibleClock: true }, 'clocks')).toBe('fail')
    expect(items({ clockAheadSeconds: -300 })[1]!.words).toBe('Its clock is 5 min behind the hub’s.')
  })
  test('a lithium cell and a supply of 5 V have limits of their own; in mV, V or per cent', () => {
    const battery = (signal: number, unit: string) =>
      stateOf({ battery: { signal, unit } }, 'boards', 'battery')
    expect(battery(3.6, 'V')).toBe('ok')
    expect(battery(3590, 'mV')).toBe('look')
    expect(battery(3.29, 'V')).toBe('fail')
    expect(battery(5020, 'mV')).toBe('ok')
    expect(battery(4500, 'mV')).toBe('look')
    expect(battery(14, '%')).toBe('fail')
    expect(battery(0.4, '/')).toBe('ok')
    expect(items({}).some(({ title }) => title.includes('battery'))).toBe(false)
  })
})

const departure = (over: Partial<DepartureFacts> = {}) =>
  departureOf({
    survey: {
      ...exampleSurvey(),
      wanted: [{ quantity: 'soil_ph', method: {}, replicates: 3, by: 'carried', minutes: 4 }],
    },
    nowMs: nineOClock,
    boards: [fine],
    readiness: [],
    storage: { trouble: null, tookMs: 3, freeBytes: 20e9 },
    trouble: null,
    brokerTrouble: null,
    ...over,
  })

describe('before leaving: the whole', () => {
  test('all in order is ready; what is only to be looked at does not keep anyone', () => {
    expect(departure()).toMatchObject({ mayGoOut: true, sentence: 'Ready to go out' })
    expect(departure({ survey: exampleSurvey() })).toMatchObject({
      mayGoOut: true,
      sentence: 'Ready to go out, with 1 to look at',
    })
  })
  test('what fails comes first, each with its remedy', () => {
    const made = departure({
      storage: { trouble: 'EROFS: read-only file system.', tookMs: 1, freeBytes: 100e6 },
      boards: [{ ...fine, lastHeardMs: null }],
    })
    expect(made.sentence).toBe('Not ready: 3 to mend')
    expect(made.items.slice(0, 3).map(({ title, state }) => [title, state])).toEqual([
      ['sedge-1', 'fail'],
      ['Storage test', 'fail'],
      ['Room on the disk', 'fail'],
    ])
    for (const item of made.items) expect(item.state === 'ok' || item.remedy !== null).toBe(true)
  })
  test('room on the disk at and beside its limits', () => {
    const room = (freeBytes: number | null) =>
      departure({ storage: { trouble: null, tookMs: 1, freeBytes } }).items.find(
        ({ title }) => title === 'Room on the disk',
      )!.state
    expect([room(1e9), room(1e9 - 1), room(200e6), room(200e6 - 1), room(null)]).toEqual([
      'ok',
      'look',
      'look',
      'fail',
      'look',
    ])
  })
  test('no board and no quadrat at all', () => {
    const made = departure({ boards: [], survey: { ...exampleSurvey(), quadrats: [] } })
    expect(made.items.filter(({ state }) => state === 'fail').map(({ title }) => title)).toEqual([
      'Quadrats',
      'Boards',
    ])
  })
})
