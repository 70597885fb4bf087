import { afterEach, describe, expect, test } from 'vitest'
import type { Completeness, Departure, Leave } from '../../../hub/contract/field.ts'
import type { TrapNow, TrapWatched, TrapWeather } from '../../../hub/contract/trap.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { FieldSide } from '../../support/field-side.ts'

let field: FieldSide
afterEach(() => field.close())
const HOUR_MS = 3_600_000
const trap = {
  method: 'live mammal trap',
  quadrat: 'Q2',
  setAt: '2026-06-12T08:00:00Z',
  checkWithinHours: 24,
  badWeather: { belowCelsius: 5 },
}

describe('the field over HTTP', () => {
  test('a trap is set, overdue a day later for everyone to see, looked at, taken up and taken back', async () => {
    field = new FieldSide(exampleSurvey(), nineOClock)
    expect(await field.ask('/api/surveys/example/traps', trap)).toMatchObject({
      status: 200,
      answer: { done: true, id: 'trap-1' },
    })
    field.nowMs = nineOClock + 24 * HOUR_MS
    const watched = async () => ((await field.ask('/api/traps')).answer as { traps: TrapWatched[] }).traps
    expect(await watched()).toMatchObject([
      { survey: 'example', title: 'Edge of an invented wood', state: 'overdue', holdsAnimals: true },
    ])
    await field.ask('/api/surveys/example/traps/trap-1/check', { note: 'one vole, let go' })
    expect(await watched()).toMatchObject([{ state: 'set', dueMs: field.nowMs + 24 * HOUR_MS }])
    await field.ask('/api/surveys/example/traps/trap-1/check', { isClosed: true })
    expect(await watched()).toEqual([])
    const { traps } = (await field.ask('/api/surveys/example/traps')).answer as { traps: TrapNow[] }
    expect(traps).toMatchObject([{ state: 'closed', exposedHours: 25 }])
    expect((await field.ask('/api/surveys/example/traps/trap-1/undo', {})).answer).toMatchObject({
      undone: 'live mammal trap at Q2 taken up',
    })
    expect(await watched()).toMatchObject([{ state: 'set' }])
  })
  test('the hub’s own thermometer halves the limit in the cold, by the last hour only', async () => {
    field = new FieldSide(exampleSurvey(), nineOClock)
    await field.ask('/api/surveys/example/traps', trap)
    // 4.9 °C by the thermometer reads 4.4 with its offset of −0.5
    field.hub.send(nineOClock, [{ n: 'sedge-1/temperature', u: 'Cel', v: 4.9 }])
    const now = async () =>
      (await field.ask('/api/surveys/example/traps')).answer as { traps: TrapNow[]; weather: TrapWeather }
    expect(await now()).toMatchObject({
      weather: { coldestCelsius: 4.4, warmestCelsius: 4.4 },
      traps: [{ limitHours: 12 }],
    })
    field.nowMs = nineOClock + HOUR_MS + 1
    expect(await now()).toMatchObject({ weather: { coldestCelsius: null }, traps: [{ limitHours: 24 }] })
  })
  test('refusals: a trap at no quadrat, a look that is to come, a trap and a quadrat that are not there', async () => {
    field = new FieldSide(exampleSurvey(), nineOClock)
    const refused = async (path: string, body?: unknown) => {
      const { status, answer } = await field.ask(path, body)
      return [status, (answer as { error: { code: string } }).error.code]
    }
    expect(await refused('/api/surveys/example/traps', { ...trap, quadrat: 'Q9' })).toEqual([
      422,
      'E_SURVEY_FILE',
    ])
    expect(await refused('/api/surveys/example/traps', { ...trap, checkWithinHours: 0 })).toEqual([
      400,
      'E_BODY',
    ])
    await field.ask('/api/surveys/example/traps', trap)
    const check = '/api/surveys/example/traps/trap-1/check'
    expect(await refused(check, { at: '2026-06-12T10:00:00Z' })).toEqual([400, 'E_BODY'])
    expect(await refused(check, { at: '2026-06-12T07:00:00Z' })).toEqual([422, 'E_SURVEY_FILE'])
    expect(await refused('/api/surveys/example/traps/trap-9/undo', {})).toEqual([404, 'E_NOT_FOUND'])
    expect(await refused('/api/surveys/example/leave?at=Q9')).toEqual([404, 'E_NOT_FOUND'])
    expect(await refused('/api/surveys/other/leave')).toEqual([404, 'E_SURVEY_UNKNOWN'])
  })
  test('completeness, leaving and departing speak of the same survey', async () => {
    field = new FieldSide(exampleSurvey(), nineOClock)
    field.hub.send(nineOClock - 1000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 12 }])
    const completeness = (await field.ask('/api/surveys/example/completeness')).answer as Completeness
    expect(completeness.cells.filter(({ state }) => state !== 'not wanted')).toHaveLength(3)
    const leave = (await field.ask('/api/surveys/example/leave?at=Q2')).answer as Leave
    // the electrode and the cups stand at Q1 and say nothing, though their board is heard
    expect(leave).toMatchObject({ maySafelyGo: false, stops: [{ quadrat: 'Q1', metres: 10 }], silent: [] })
    expect(leave.stops[0]!.things.map(({ kind, quantity }) => [kind, quantity])).toEqual([
      ['value', 'soil_ph'],
      ['value', 'wind_speed'],
    ])
    const departure = (await field.ask('/api/surveys/example/departure')).answer as Departure
    expect(departure.items.find(({ title }) => title === 'Storage test')).toMatchObject({ state: 'ok' })
    expect(departure.items.find(({ title }) => title === 'sedge-1')).toMatchObject({ state: 'ok' })
    expect(departure.items.find(({ title }) => title === 'PH-1')).toMatchObject({ state: 'look' })
  })
})
