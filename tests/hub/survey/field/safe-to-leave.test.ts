import { describe, expect, test } from 'vitest'
import type { CellNeed, Completeness, CompletenessCell } from '../../../../hub/contract/field.ts'
import { Quadrat, type SurveyFile } from '../../../../hub/contract/survey.ts'
import { Trap } from '../../../../hub/contract/trap.ts'
import { type LeaveFacts, safeToLeave } from '../../../../hub/survey/field/safe-to-leave.ts'
import { trapNow } from '../../../../hub/survey/field/trap-now.ts'
import { exampleSurvey, nineOClock } from '../../../support/example-survey.ts'

/** Q1 … Q6 every 4 m along the tape. */
const survey: SurveyFile = {
  ...exampleSurvey(),
  quadrats: [0, 4, 8, 12, 16, 20].map((distanceMetres, index) =>
    Quadrat.parse({ label: `Q${index + 1}`, transect: 'T1', distanceMetres }),
  ),
  groups: [
    { label: 'G1', quadrats: ['Q1', 'Q2', 'Q3'] },
    { label: 'G2', quadrats: ['Q4', 'Q5', 'Q6'] },
  ],
}

const cell = (
  quadrat: string,
  missing: CellNeed[],
  over: Partial<CompletenessCell> = {},
): CompletenessCell => ({
  quadrat,
  quantity: 'soil_ph',
  method: {},
  by: 'carried',
  state: missing.length === 0 ? 'complete' : 'partly',
  got: 2,
  needed: 3,
  standing: [],
  isSteady: true,
  isCalibrated: true,
  isClockKnown: true,
  last: null,
  missing,
  remarks: [],
  minutes: missing.length === 0 ? 0 : 2,
  ...over,
})
const measure: CellNeed = { kind: 'measure', words: 'soil pH: 1 more', of: null }
const leave = (cells: CompletenessCell[], over: Partial<LeaveFacts> = {}) =>
  safeToLeave({
    survey,
    completeness: {
      nowMs: nineOClock,
      isWantedGiven: true,
      wanted: [],
      quadrats: [],
      cells,
      loss: [],
    } as Completeness,
    silent: [],
    traps: [],
    reminders: [],
    at: null,
    ...over,
  })

describe('safe to leave', () => {
  test('nothing missing: they may go; nothing wanted at all: it cannot be said', () => {
    expect(leave([cell('Q1', [])])).toMatchObject({ maySafelyGo: true, sentence: 'You may go', things: 0 })
    expect(leave([cell('Q1', [], { state: 'not wanted' })]).maySafelyGo).toBe(false)
    expect(leave([]).sentence).toContain('cannot say')
  })
  test('what is missing, by quadrat, in the order of least walking from where they are, with minutes and group', () => {
    const found = leave(
      [cell('Q1', [measure]), cell('Q3', []), cell('Q5', [measure]), cell('Q6', [measure])],
      {
        at: 'Q4',
      },
    )
    // from 12 m: up to 16 and 20, then down to 0 is 28 m; down first would be 32 m
    expect(found.stops.map(({ quadrat, metres, groups }) => [quadrat, metres, groups])).toEqual([
      ['Q5', 4, ['G2']],
      ['Q6', 4, ['G2']],
      ['Q1', 20, ['G1']],
    ])
    // three times 2 minutes, and 28 m at 40 m a minute (common practice, no source)
    expect(found.minutes).toBeCloseTo(6.7, 9)
    expect(found.sentence).toBe('Not yet: 3 things, about 7 minutes')
  })
  test('one thing, in its singular', () => {
    expect(leave([cell('Q2', [measure], { minutes: 1 })]).sentence).toBe('Not yet: 1 thing, about 1 minute')
  })
  test('a silent board is one thing however many quantities it spoils, and is done where they must go anyway', () => {
    const board: CellNeed = { kind: 'board', words: 'board sedge-1 is silent', of: 'sedge-1' }
    const standing = { by: 'standing' as const }
    const found = leave(
      [
        cell('Q1', [board], standing),
        cell('Q1', [board], { ...standing, quantity: 'illuminance' }),
        cell('Q2', [board], standing),
        cell('Q2', [measure]),
      ],
      {
        silent: [
          { board: 'sedge-1', lastHeardMs: nineOClock - 60_000, quadrats: ['Q1', 'Q2'], isInUse: true },
        ],
      },
    )
    expect(found.things).toBe(2)
    expect(found.stops).toMatchObject([{ quadrat: 'Q2', things: [{ kind: 'board' }, { kind: 'measure' }] }])
    expect(found.silent).toEqual([
      { board: 'sedge-1', lastHeardMs: nineOClock - 60_000, quadrats: ['Q1', 'Q2'] },
    ])
  })
  test('a silent board that no cell speaks of counts while it is in use; one that stands nowhere is told only', () => {
    const silent = { board: 'sky', lastHeardMs: null, quadrats: [], isInUse: true }
    expect(leave([cell('Q1', [])], { silent: [silent] })).toMatchObject({
      maySafelyGo: false,
      elsewhere: [{ kind: 'board', of: 'sky' }],
    })
    expect(leave([cell('Q1', [])], { silent: [{ ...silent, isInUse: false }] })).toMatchObject({
      maySafelyGo: true,
      silent: [{ board: 'sky' }],
    })
  })
  test('a missing calibration of a carried meter is bound to no quadrat', () => {
    const need: CellNeed = { kind: 'calibration', words: 'PH-1 has no calibration', of: 'PH-1' }
    const found = leave([cell('Q1', [need]), cell('Q2', [need])])
    expect(found).toMatchObject({ things: 1, stops: [], elsewhere: [{ kind: 'calibration', of: 'PH-1' }] })
  })
  test('traps that are due or overdue keep the class there; one that is set stays, and is told', () => {
    const trap = (id: string, hoursAgo: number) =>
      trapNow(
        Trap.parse({
          id,
          method: 'live mammal trap',
          quadrat: 'Q3',
          setAt: new Date(nineOClock - hoursAgo * 3_600_000).toISOString(),
          checkWithinHours: 24,
        }),
        { coldestCelsius: null, warmestCelsius: null },
        nineOClock,
      )
    const found = leave([cell('Q1', [])], { traps: [trap('a', 1), trap('b', 20), trap('c', 25)] })
    expect(found.traps.map(({ trap: { id } }) => id)).toEqual(['c', 'b'])
    expect(found.staying.map(({ trap: { id } }) => id)).toEqual(['a'])
    expect(found.stops[0]!.things.map(({ words }) => words)).toEqual([
      'live mammal trap is overdue: animals may be waiting in it',
      'live mammal trap is due: animals may be waiting in it',
    ])
    expect(found.maySafelyGo).toBe(false)
    expect(leave([cell('Q1', [])], { traps: [trap('a', 1)] }).maySafelyGo).toBe(true)
  })
})
