import { describe, expect, test } from 'vitest'
import { checkTrap, setTrap, undoTrap } from '../../../../hub/survey/field/change-traps.ts'
import { readSurveyFile } from '../../../../hub/survey/read-survey-file.ts'
import { exampleSurvey, nineOClock } from '../../../support/example-survey.ts'

const wish = { method: 'pitfall trap', quadrat: 'Q1', setAt: '2026-06-12T08:00:00Z', checkWithinHours: 24 }
const withTrap = () => setTrap(exampleSurvey(), wish).survey

describe('traps are set, looked at and taken up', () => {
  test('each gets a name of its own, and the old survey is untouched', () => {
    const before = exampleSurvey()
    const first = setTrap(before, wish)
    const second = setTrap(first.survey, wish)
    expect([first.id, second.id]).toEqual(['trap-1', 'trap-2'])
    expect(setTrap(before, { ...wish, id: 'by-the-oak' }).id).toBe('by-the-oak')
    expect(before.traps).toBeUndefined()
  })
  test('a look without a time is now; one that is to come is refused; one before the setting is a fault of the survey', () => {
    const looked = checkTrap(withTrap(), 'trap-1', { isClosed: false, note: 'two beetles' }, nineOClock)
    expect(looked.traps![0]!.checks).toEqual([
      { at: '2026-06-12T09:00:00.000Z', isClosed: false, note: 'two beetles' },
    ])
    const toCome = () =>
      checkTrap(withTrap(), 'trap-1', { isClosed: false, at: '2026-06-12T09:03:00Z' }, nineOClock)
    expect(toCome).toThrow('still to come')
    const early = checkTrap(withTrap(), 'trap-1', { isClosed: false, at: '2026-06-12T07:00:00Z' }, nineOClock)
    expect(readSurveyFile(early).faults[0]!.path).toBe('traps[0].checks[0].at')
  })
  test('a trap that was taken up is not looked at again, and one that is not there is not found', () => {
    const closed = checkTrap(withTrap(), 'trap-1', { isClosed: true }, nineOClock)
    expect(() => checkTrap(closed, 'trap-1', { isClosed: false }, nineOClock)).toThrow('taken up already')
    expect(() => checkTrap(closed, 'trap-9', { isClosed: false }, nineOClock)).toThrow('no trap "trap-9"')
  })
  test('undoing takes back the last look, then the setting', () => {
    const looked = checkTrap(withTrap(), 'trap-1', { isClosed: true }, nineOClock)
    const open = undoTrap(looked, 'trap-1')
    expect(open.undone).toBe('pitfall trap at Q1 taken up')
    expect(open.survey.traps![0]!.checks).toEqual([])
    expect(undoTrap(open.survey, 'trap-1')).toMatchObject({
      undone: 'pitfall trap set at Q1',
      survey: { traps: [] },
    })
  })
})
