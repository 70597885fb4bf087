import { describe, expect, test } from 'vitest'
import { cautionsFor } from '../../dashboard/field/traps/trap-cautions.ts'
import { readTrapForm, type TrapForm, usualHours } from '../../dashboard/field/traps/trap-form.ts'
import { dueWords, stateNow } from '../../dashboard/field/traps/trap-words.ts'
import { weatherWords } from '../../dashboard/field/traps/weather-words.ts'
import { SetTrap } from '../../hub/contract/changes.ts'
import { Trap, type TrapNow } from '../../hub/contract/trap.ts'

const nowMs = Date.parse('2026-06-12T09:00:00Z')
const HOUR_MS = 3_600_000
const form = (over: Partial<TrapForm> = {}): TrapForm => ({
  method: 'live mammal trap',
  quadrat: 'Q1',
  setAt: '',
  hours: '24',
  belowCelsius: '5',
  aboveCelsius: '',
  note: '',
  ...over,
})

describe('the form of a trap', () => {
  test('empty time is now; a time is that of the site; the hub takes what comes out', () => {
    const now = readTrapForm(form(), 'G1', nowMs, 'Europe/London')
    if ('wrong' in now) throw new Error('refused')
    expect(SetTrap.parse(now.trap)).toEqual({
      method: 'live mammal trap',
      quadrat: 'Q1',
      setAt: '2026-06-12T09:00:00.000Z',
      checkWithinHours: 24,
      badWeather: { belowCelsius: 5 },
      by: 'G1',
    })
    const earlier = readTrapForm(form({ setAt: '2026-06-12T08:30' }), '', nowMs, 'Europe/London')
    // British Summer Time is one hour ahead of UTC
    expect('trap' in earlier && earlier.trap.setAt).toBe('2026-06-12T07:30:00.000Z')
  })
  test('each wrong field is named, and the limit of hours is that of the hub', () => {
    const wrong = readTrapForm(
      form({ method: ' ', hours: '0', belowCelsius: 'cold', aboveCelsius: '-20' }),
      '',
      nowMs,
      undefined,
    )
    expect('wrong' in wrong && Object.keys(wrong.wrong).sort()).toEqual(['belowCelsius', 'hours', 'method'])
    const crossed = readTrapForm(form({ aboveCelsius: '5' }), '', nowMs, undefined)
    expect('wrong' in crossed && crossed.wrong.aboveCelsius).toContain('warmer')
    expect('trap' in readTrapForm(form({ hours: '720' }), '', nowMs, undefined)).toBe(true)
    expect('wrong' in readTrapForm(form({ hours: '720.1' }), '', nowMs, undefined)).toBe(true)
    expect('trap' in readTrapForm(form({ hours: '0,5' }), '', nowMs, undefined)).toBe(true)
  })
  test('the usual hours: common practice, no source; other words are looked at as often as a live trap', () => {
    expect([usualHours('live mammal trap'), usualHours('Light trap '), usualHours('box')]).toEqual([
      12, 12, 12,
    ])
  })
})

describe('what is said about a trap', () => {
  const trap = (dueMs: number | null): TrapNow => ({
    trap: Trap.parse({
      id: 't',
      method: 'pitfall trap',
      quadrat: 'Q1',
      setAt: '2026-06-11T09:00:00Z',
      checkWithinHours: 24,
    }),
    state: 'set',
    holdsAnimals: true,
    dueMs,
    limitHours: 24,
    weather: null,
    exposedHours: 24,
  })
  test('it goes on counting on the page, also when the hub has told its state long ago', () => {
    expect(stateNow(trap(nowMs), nowMs - 7 * HOUR_MS)).toBe('set')
    expect(stateNow(trap(nowMs), nowMs - 6 * HOUR_MS)).toBe('due')
    expect(stateNow(trap(nowMs), nowMs)).toBe('overdue')
    expect(dueWords(trap(nowMs), nowMs + 130 * 60_000)).toBe('overdue for 2 h 10 min')
    expect(dueWords(trap(nowMs), nowMs)).toBe('overdue now')
    expect(dueWords(trap(nowMs), nowMs - 3 * HOUR_MS)).toBe('to be looked at within 3 h')
    expect(dueWords(trap(null), nowMs)).toBe('taken up')
  })
  test('what must be said where it is set: bedding, food, licence; rain and shrews; heat and fumes', () => {
    const said = (method: string) => cautionsFor(method).join(' ')
    for (const word of [
      'bedding',
      'Food',
      'insulation',
      'licence',
      'near where it was caught',
      'local rules',
      'qualified',
    ])
      expect(said('live mammal trap')).toContain(word)
    for (const word of ['rain', 'drain', 'killing fluid', 'teacher', 'Shrews'])
      expect(said('pitfall trap')).toContain(word)
    for (const word of ['hot', 'Alcohol burns', 'fumes']) expect(said('extraction funnel')).toContain(word)
    expect(said('a box of my own')).toContain('Shrews')
  })
  test('without a thermometer the weather rule cannot work, and that is said', () => {
    expect(weatherWords({ coldestCelsius: null, warmestCelsius: null })).toContain('cannot work')
    expect(weatherWords({ coldestCelsius: -0.4, warmestCelsius: 3 })).toContain('−0.4 to 3.0 °C')
  })
})
