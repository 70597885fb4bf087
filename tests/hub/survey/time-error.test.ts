import { expect, test } from 'vitest'
import type { ClockCorrection, SurveyFile } from '../../../hub/contract/survey.ts'
import { correctionThatMoved, type TimeFacts, timeError } from '../../../hub/survey/time-error.ts'
import { exampleSurvey } from '../../support/example-survey.ts'

const facts: TimeFacts = {
  origin: 'arrival',
  ageSeconds: 0,
  quickestSeconds: null,
  correction: null,
  isTyped: false,
}

test('timed by arrival: 1 s for the way (common practice, no source)', () => {
  expect(timeError(facts).seconds).toBe(1)
})

test('counted back by an hour: 36 s without a crystal, and the way; 0.36 s with one is said too', () => {
  // the project’s domain map, 2.4: “RC oscillator ≈ 1 % (36 s/h)”, “crystal 20–100 ppm”
  const error = timeError({ ...facts, origin: 'board seconds', ageSeconds: 3600 })
  expect(error.seconds).toBe(37)
  expect(error.why).toContain('36 s')
  expect(error.why).toContain('0.36 s')
})

test('counted back by a second: nothing to speak of beside the way', () => {
  const error = timeError({ ...facts, origin: 'board seconds', ageSeconds: 1 })
  expect(error.seconds).toBeCloseTo(1.01, 10)
  expect(error.why).toContain('no board counts far wrong')
})

test('by its own clock: as far as the quickest message shows the clocks apart, either way, not below 0.1 s', () => {
  const own = (quickestSeconds: number | null) =>
    timeError({ ...facts, origin: 'board clock', quickestSeconds })
  expect(own(0.02)).toMatchObject({ seconds: 0.1, why: expect.stringContaining('agree') })
  expect(own(4)).toMatchObject({ seconds: 4, why: expect.stringContaining('behind') })
  expect(own(-3)).toMatchObject({ seconds: 3, why: expect.stringContaining('ahead') })
  expect(own(null).seconds).toBeNull()
})

test('shifted to arrival: not to be trusted, until a correction says how well it is known', () => {
  const shifted = { ...facts, origin: 'shifted to arrival' as const }
  expect(timeError(shifted)).toMatchObject({ seconds: null, why: expect.stringContaining('impossible') })
  expect(timeError({ ...shifted, correction: { offsetSeconds: -60, errorSeconds: 5 } }).seconds).toBe(5)
})

test('moved by a correction: its error, and that of how the reading was timed; one without an error says nothing', () => {
  const correction = { offsetSeconds: 3600, errorSeconds: 2 }
  expect(timeError({ ...facts, correction }).seconds).toBe(3)
  expect(timeError({ ...facts, origin: 'board clock', quickestSeconds: 900, correction }).seconds).toBe(2)
  expect(timeError({ ...facts, correction: { offsetSeconds: 3600 } }).seconds).toBeNull()
})

test('typed by a person: about a minute (common practice, no source)', () => {
  expect(timeError({ ...facts, origin: 'board clock', isTyped: true }).seconds).toBe(60)
})

test('the correction that moved a reading is found by the time the board had told', () => {
  const correction = (id: string, board: string): ClockCorrection => ({
    id,
    board,
    from: '2026-06-12T08:00:00Z',
    to: '2026-06-12T09:00:00Z',
    offsetSeconds: 3600,
    reason: 'an hour slow',
    at: '2026-06-12T12:00:00Z',
  })
  const survey: SurveyFile = {
    ...exampleSurvey(),
    clockCorrections: [correction('c1', 'fern-1'), correction('c2', 'moss-2')],
  }
  const found = (clock: string) =>
    correctionThatMoved([survey], 'fern-1', Date.parse(`2026-06-12T${clock}Z`))?.id ?? null
  expect(found('08:59:59')).toBeNull()
  expect(found('09:00:00')).toBe('c1')
  expect(found('09:59:59')).toBe('c1')
  expect(found('10:00:00')).toBeNull()
})
