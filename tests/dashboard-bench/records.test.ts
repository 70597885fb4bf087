import { describe, expect, it } from 'vitest'
import { fitCalibration, isRefusal, PROCEDURES, type Recipe } from '../../calibration/index.ts'
import { checkProcedure } from '../../dashboard/bench/check/check-procedure.ts'
import {
  checksForDrift,
  driftAdvice,
  driftShown,
  isOneOccasion,
  ratingWords,
} from '../../dashboard/bench/check/drift-words.ts'
import { judgeMade } from '../../dashboard/bench/check/made-check.ts'
import { criteriaWords } from '../../dashboard/bench/records/criteria.ts'
import { calibrationsOf, inForceAt, verdictOf } from '../../dashboard/bench/records/in-force.ts'
import { recordPoints } from '../../dashboard/bench/records/record-points.ts'
import { sourcesOf } from '../../dashboard/bench/records/sources.ts'
import { tracksOf } from '../../dashboard/bench/records/tracked.ts'
import { daysText } from '../../dashboard/bench/sheet/row-words.ts'
import { STATE_ORDER, STATE_SHAPES, summaryOf } from '../../dashboard/bench/sheet/states.ts'
import type { CheckJudged } from '../../hub/contract/readiness.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'

const point = (millivolt: number, buffer: string) => ({
  millivolt,
  temperatureCelsius: 15,
  bufferSet: 'technical',
  buffer,
})
const good: Recipe = { kind: 'ph-electrode', points: [point(6, '7'), point(176.3, '4')] }
const swapped: Recipe = { kind: 'ph-electrode', points: [point(176.3, '7'), point(6, '4')] }
const calibration = (id: string, validFrom: string, recipe: Recipe, withdrawn?: true) => ({
  id,
  probe: 'ph-1',
  validFrom,
  recipe,
  ...(withdrawn ? { withdrawn: { at: validFrom, reason: 'stale buffer' } } : {}),
})
const survey = {
  calibrations: [
    calibration('first', '2026-06-12T07:00:00Z', good),
    calibration('failed', '2026-06-12T08:00:00Z', swapped),
    calibration('taken-back', '2026-06-12T08:30:00Z', good, true),
    calibration('second', '2026-06-12T10:00:00Z', good),
  ],
} as unknown as SurveyFile

describe('which calibration holds', () => {
  it('is the newest that did not fail and was not withdrawn', () => {
    const at = (time: string) => inForceAt(survey, 'ph-1', Date.parse(time))?.id ?? null
    expect(at('2026-06-12T06:59:59Z')).toBeNull()
    expect(at('2026-06-12T07:00:00Z')).toBe('first')
    expect(at('2026-06-12T09:00:00Z')).toBe('first')
    expect(at('2026-06-12T10:00:00Z')).toBe('second')
    expect(inForceAt(survey, 'ph-2', Date.parse('2026-06-12T10:00:00Z'))).toBeNull()
  })
  it('keeps all on record, the newest first', () => {
    expect(calibrationsOf(survey, 'ph-1').map(({ id }) => id)).toEqual([
      'second',
      'taken-back',
      'failed',
      'first',
    ])
    expect(verdictOf({ recipe: { kind: 'ph-electrode', points: [] } })).toBe('fail')
  })
  it('is followed over time, oldest first', () => {
    const [slope] = tracksOf(calibrationsOf(survey, 'ph-1'))
    expect(slope?.name).toBe('slopePercent')
    expect(slope?.at.map(({ isInForce }) => isInForce)).toEqual([true, false, false, true])
    expect(tracksOf(survey.calibrations.slice(0, 1))).toEqual([])
  })
})

describe('limits printed on a record', () => {
  const verdict = (recipe: Recipe) => {
    const fitted = fitCalibration(recipe)
    return isRefusal(fitted) ? 'refused' : fitted.verdict
  }
  it('are those the curves judge by', () => {
    const ice = (off: number): Recipe => ({ kind: 'digital-temperature', icePoint: [off] })
    expect([0.5, 0.51, 1, 1.01].map((off) => verdict(ice(off)))).toEqual(['pass', 'warn', 'warn', 'fail'])
    const second = (reference: number): Recipe => ({
      kind: 'digital-temperature',
      secondPoint: { reading: 20, reference },
    })
    expect([20.29, 20.31].map((reference) => verdict(second(reference)))).toEqual(['pass', 'warn'])
    const light = (factor: number, darkLux: number): Recipe => ({
      kind: 'light-counts',
      sensor: 'bh1750',
      factor,
      darkLux,
    })
    expect(verdict(light(1.1, 5))).toBe('pass')
    expect(verdict(light(1.11, 5))).toBe('warn')
    expect(verdict(light(1, 5.1))).toBe('fail')
    const span = (scatter: number): Recipe => ({
      kind: 'wetness-span',
      drySignal: 800,
      wetSignal: 400,
      dryScatter: scatter,
    })
    expect([40, 41].map((scatter) => verdict(span(scatter)))).toEqual(['pass', 'fail'])
  })
  it('and sources are there for every way to calibrate', () => {
    for (const procedure of PROCEDURES) {
      const recipe = procedure.recipe([], {})
      expect(criteriaWords(recipe).length).toBeGreaterThan(0)
      expect(sourcesOf(recipe).length).toBeGreaterThan(1)
      expect(() => recordPoints(recipe)).not.toThrow()
    }
    expect(sourcesOf(good).join()).toContain('buffer set “technical”')
  })
})

describe('a check', () => {
  it('uses references of the same kind as the calibration in force', () => {
    expect(checkProcedure('soil_moisture', 'water-content-fit').id).toBe('oven')
    expect(checkProcedure('soil_moisture', 'wetness-span').id).toBe('dry-wet')
    expect(checkProcedure('soil_ph', 'ph-electrode').id).toBe('ph-buffers')
  })
  it('is judged by the calibration as it is', () => {
    const fitted = fitCalibration(good)
    if (isRefusal(fitted)) throw new Error(fitted.message)
    const made = {
      held: { signal: 6, scatter: 0.1, n: 4, isForced: false, secondsToSteady: 10 },
      fields: { temperatureCelsius: '15' },
      unit: 'mV',
      atMs: 0,
      reference: { value: 7.04, name: 'buffer 7' },
    }
    expect(judgeMade('soil_ph', fitted, made)).toMatchObject({ kind: 'judged', verdict: 'pass' })
    expect(judgeMade('soil_ph', fitted, { ...made, reference: { value: 7.5, name: 'x' } })).toMatchObject({
      verdict: 'fail',
    })
    expect(judgeMade('oxygen', fitted, made)).toMatchObject({ kind: 'none' })
    expect(judgeMade('soil_ph', fitted, { ...made, unit: 'count' })).toMatchObject({ kind: 'none' })
  })
})

describe('drift', () => {
  const check = (id: string, reading: number, reference: number, more: Partial<CheckJudged> = {}) => ({
    id,
    at: '2026-06-12T14:30:00Z',
    when: 'after' as const,
    reference,
    referenceName: 'buffer',
    reading,
    error: reading - reference,
    passLimit: 0.05,
    verdict: 'warn' as const,
    calibration: 'first',
    ...more,
  })
  const both = checksForDrift([check('a', 4.12, 4), check('b', 7.1, 7.06)], 'first')
  it('of story A09 is 0.0835 at the check for a reading of 5.48', () => {
    const shown = driftShown(Date.parse('2026-06-12T09:30:00Z'), both, 5.48)
    if (typeof shown === 'string') throw new Error(shown)
    expect(shown.errorAtCheck).toBeCloseTo(0.0835, 4)
    expect(shown.halfway.error).toBeCloseTo(0.0835 / 2, 4)
  })
  it('says why there is none when the check came before the calibration', () => {
    expect(typeof driftShown(Date.parse('2026-06-12T15:00:00Z'), both, 5)).toBe('string')
  })
  it('rests only on checks after fieldwork under this calibration that had a reading', () => {
    const all = [
      ...both,
      check('before', 4, 4, { when: 'before' }),
      check('other', 4, 4, { calibration: 'second' }),
      check('none', 4, 4, { reading: null, error: null }),
    ]
    expect(checksForDrift(all, 'first').map(({ id }) => id)).toEqual(['a', 'b'])
    expect(isOneOccasion(both)).toBe(true)
    expect(isOneOccasion([both[0]!, check('late', 4, 4, { at: '2026-06-12T18:00:00Z' })])).toBe(false)
  })
  it('is advised on by its size, at the limits too', () => {
    expect([0.05, -0.2, 0.201, 0.51].map((size) => driftAdvice('soil_ph', size).slice(0, 8))).toEqual([
      'As small',
      'Correct ',
      'Correct ',
      'Too much',
    ])
    expect(ratingWords('soil_ph', 0.08)).toContain('excellent')
    expect(ratingWords('illuminance', 5)).toBe('')
  })
})

describe('the readiness sheet', () => {
  it('sums up in one line', () => {
    const rows = [
      { state: 'ready', mayGoOut: true },
      { state: 'failed', mayGoOut: false },
      { state: 'not checked', mayGoOut: false },
      { state: 'not checked', mayGoOut: false },
    ] as const
    expect(summaryOf(rows)).toBe('1 of 4 probes may go out; 1 failed, 2 not checked.')
    expect(summaryOf(rows.slice(0, 1))).toBe('1 of 1 probe may go out.')
    expect(summaryOf([])).toBe('0 of 0 probes may go out.')
  })
  it('has a shape of its own for every state', () => {
    const shapes = STATE_ORDER.map((state) => STATE_SHAPES[state])
    expect(new Set(shapes).size).toBe(6)
  })
  it('writes ages as people say them', () => {
    expect([0.02, 0.5, 1, 1.97, 180].map(daysText)).toEqual(['29 min', '12 h', '1 day', '2 days', '180 days'])
  })
})
