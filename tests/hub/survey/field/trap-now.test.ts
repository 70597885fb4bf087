import { describe, expect, test } from 'vitest'
import { Trap } from '../../../../hub/contract/trap.ts'
import { byUrgency, holdsAnimals, trapNow } from '../../../../hub/survey/field/trap-now.ts'

const HOUR_MS = 3_600_000
const unknown = { coldestCelsius: null, warmestCelsius: null }
const setAt = '2026-06-12T09:00:00Z'
const setMs = Date.parse(setAt)
// 24 h for a live mammal trap, due in the last quarter of it, half of it in bad weather: common practice, no source
const trap = (over: Partial<Trap> = {}): Trap =>
  Trap.parse({
    id: 'trap-1',
    method: 'live mammal trap',
    quadrat: 'Q1',
    setAt,
    checkWithinHours: 24,
    ...over,
  })
const stateAfter = (hours: number, over: Partial<Trap> = {}, plusMs = 0) =>
  trapNow(trap(over), unknown, setMs + hours * HOUR_MS + plusMs).state

describe('the clock of a trap', () => {
  test('it is due from three quarters of its time on, overdue from its limit on: just before, at and just after', () => {
    expect(stateAfter(18, {}, -1)).toBe('set')
    expect(stateAfter(18)).toBe('due')
    expect(stateAfter(24, {}, -1)).toBe('due')
    expect(stateAfter(24)).toBe('overdue')
    expect(stateAfter(24, {}, 1)).toBe('overdue')
    expect(stateAfter(0)).toBe('set')
    expect(stateAfter(0, {}, -1)).toBe('not-set-yet')
  })
  test('a look begins its time anew; taking it up ends it', () => {
    const looked = { checks: [{ at: '2026-06-13T08:00:00Z', isClosed: false }] }
    // 23 h after setting: the next look is due 24 h after that one
    expect(trapNow(trap(looked), unknown, setMs + 30 * HOUR_MS)).toMatchObject({
      state: 'set',
      dueMs: Date.parse('2026-06-14T08:00:00Z'),
    })
    const closed = { checks: [...looked.checks, { at: '2026-06-13T20:00:00Z', isClosed: true }] }
    const now = trapNow(trap(closed), unknown, setMs + 500 * HOUR_MS)
    expect(now).toMatchObject({ state: 'closed', dueMs: null })
    // 12 June 09:00 to 13 June 20:00
    expect(now.exposedHours).toBe(35)
  })
  test('hours are hours of true time: over the night when clocks are put back or forward the limit stays 24 h', () => {
    // Europe/London: on 25 October 2026 clocks go back at 01:00 UTC, on 29 March 2026 forward at 01:00 UTC (tz database)
    const autumn = trapNow(
      trap({ setAt: '2026-10-24T18:00:00+01:00' }),
      unknown,
      Date.parse('2026-10-25T12:00:00Z'),
    )
    // 18:00 summer time is 17:00 UTC; on the wall it is due at 17:00 winter time, not 18:00
    expect(autumn.dueMs).toBe(Date.parse('2026-10-25T17:00:00+00:00'))
    const spring = trapNow(
      trap({ setAt: '2026-03-28T18:00:00+00:00' }),
      unknown,
      Date.parse('2026-03-29T12:00:00Z'),
    )
    expect(spring.dueMs).toBe(Date.parse('2026-03-29T19:00:00+01:00'))
  })
  test('bad weather by the hub’s own thermometers halves the limit, and says so', () => {
    const rule = { badWeather: { belowCelsius: 5, aboveCelsius: 25 } }
    const at = (coldestCelsius: number, warmestCelsius: number, hours: number) =>
      trapNow(trap(rule), { coldestCelsius, warmestCelsius }, setMs + hours * HOUR_MS)
    expect(at(5, 25, 12)).toMatchObject({ state: 'set', limitHours: 24, weather: null })
    expect(at(4.9, 12, 12)).toMatchObject({ state: 'overdue', limitHours: 12 })
    expect(at(4.9, 12, 12).weather).toContain('4.9 °C in the last hour, colder than 5 °C')
    expect(at(12, 25.1, 9)).toMatchObject({ state: 'due', limitHours: 12 })
    expect(trapNow(trap(rule), unknown, setMs + 12 * HOUR_MS).weather).toBeNull()
    // without a rule the cold changes nothing
    expect(trapNow(trap(), { coldestCelsius: -5, warmestCelsius: 0 }, setMs).limitHours).toBe(24)
  })
  test('words that are not known are taken to hold animals; a funnel and a refuge do not', () => {
    expect(holdsAnimals('Live mammal trap ')).toBe(true)
    expect(holdsAnimals('box under the hedge')).toBe(true)
    expect(holdsAnimals('extraction funnel')).toBe(false)
    expect(holdsAnimals('refuge trap')).toBe(false)
  })
  test('the most urgent comes first: overdue, then due; with animals before without', () => {
    const nowMs = setMs + 25 * HOUR_MS
    const traps = [
      trap({ id: 'later', checkWithinHours: 72 }),
      trap({ id: 'refuge', method: 'refuge trap' }),
      trap({ id: 'soon', checkWithinHours: 30 }),
      trap({ id: 'mammal' }),
    ].map((each) => trapNow(each, unknown, nowMs))
    expect(traps.sort(byUrgency).map((each) => each.trap.id)).toEqual(['mammal', 'refuge', 'soon', 'later'])
  })
})
