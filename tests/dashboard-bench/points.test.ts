import { describe, expect, it } from 'vitest'
import { type Captured, type Fields, PROCEDURES } from '../../calibration/index.ts'
import { attemptOf, whatIsMissing } from '../../dashboard/bench/fit/attempt.ts'
import { EMPTY_DRAFT, fitToTime, type KeptPoint, nextKey } from '../../dashboard/bench/fit/draft.ts'
import { factLines } from '../../dashboard/bench/fit/fact-lines.ts'
import { moreAdvice } from '../../dashboard/bench/fit/more-advice.ts'
import { noteOf } from '../../dashboard/bench/fit/point-notes.ts'
import { swapBeakers } from '../../dashboard/bench/fit/swap-points.ts'
import {
  entryForNext,
  fieldFaults,
  fieldsOf,
  isPastUse,
  startEntry,
  suggestionsFor,
  whyNoReference,
} from '../../dashboard/bench/hold/entries.ts'
import { amountsOf, putPlacesFor, putWish } from '../../dashboard/bench/hold/put-places.ts'
import { Recipe } from '../../hub/contract/recipe.ts'

const procedureOf = (id: string) => PROCEDURES.find((procedure) => procedure.id === id)!
const ph = procedureOf('ph-buffers')
const usual = startEntry(ph.settings)

function kept(signal: number, fields: Fields, more: Partial<KeptPoint> = {}): KeptPoint {
  return {
    signal,
    scatter: 0.2,
    n: 4,
    isForced: false,
    secondsToSteady: 20,
    fields,
    role: 'fit',
    key: 1,
    atMs: 0,
    procedure: 'ph-buffers',
    ...more,
  }
}
const buffer = (name: string, celsius = '15'): Fields => ({
  bufferSet: 'technical',
  buffer: name,
  temperatureCelsius: celsius,
})
/** acceptance story A01 */
const a01 = [kept(6.0, buffer('7'), { key: 1 }), kept(176.3, buffer('4'), { key: 2 })]

describe('what is typed with a point', () => {
  it('starts with the usual set, and the thermometer fills the temperature until somebody types another', () => {
    const entry = startEntry(ph.perPoint)
    expect(entry).toEqual({ bufferSet: 'technical' })
    expect(fieldsOf(ph.perPoint, { ...entry, buffer: ' 7 ' }, 17.04)).toEqual({
      bufferSet: 'technical',
      buffer: '7',
      temperatureCelsius: '17.0',
    })
    expect(fieldsOf(ph.perPoint, { temperatureCelsius: '15,5' }, 17)['temperatureCelsius']).toBe('15,5')
    // emptied by hand is empty, not the thermometer again
    expect(fieldsOf(ph.perPoint, { temperatureCelsius: '' }, 17)).toEqual({})
  })
  it('asks for the next buffer anew, but not for the set', () => {
    const next = entryForNext(ph, { bufferSet: 'jis', buffer: '7', lot: 'A1', temperatureCelsius: '15' }, [])
    expect(next).toEqual({ bufferSet: 'jis' })
  })
  it('moves on from dry to wet, and stays in ice', () => {
    const dryWet = procedureOf('dry-wet')
    expect(entryForNext(dryWet, { end: 'dry' }, [{ fields: { end: 'dry' } }])).toEqual({ end: 'wet' })
    expect(entryForNext(procedureOf('ice-point'), { celsius: '0' }, [])).toEqual({ celsius: '0' })
  })
  it('says what is wrong with each field', () => {
    expect(fieldFaults(ph.perPoint, {})).toEqual({ bufferSet: 'Choose one.', temperatureCelsius: 'Needed.' })
    expect(fieldFaults(ph.perPoint, { ...buffer('7'), ph: 'seven' })).toEqual({
      ph: 'A number is needed here.',
    })
    const oven = procedureOf('oven')
    expect(Object.keys(fieldFaults(oven.perPoint, {}, true))).toEqual(['ringCubicCentimetre'])
  })
  it('says why a reference is not known', () => {
    expect(whyNoReference(ph, { bufferSet: 'technical', temperatureCelsius: '15' })).toContain('which buffer')
    expect(whyNoReference(ph, buffer('6'))).toContain('has no buffer')
    expect(whyNoReference(ph, buffer('7'))).toBeNull()
  })
  it('offers the buffers of the set', () => {
    const field = ph.perPoint.find(({ name }) => name === 'buffer')!
    expect(suggestionsFor(field, { bufferSet: 'technical' }).map(({ value }) => value)).toEqual([
      '4',
      '7',
      '10',
    ])
    expect(suggestionsFor(field, {})).toEqual([])
  })
  it('warns of a bottle past its date, not on the day itself', () => {
    expect(isPastUse('2026-06-11', '2026-06-12')).toBe(true)
    expect(isPastUse('2026-06-12', '2026-06-12')).toBe(false)
    expect(isPastUse('', '2026-06-12')).toBe(false)
  })
})

describe('from points to a curve', () => {
  it('gives story A01: −56.02 mV per pH, 98.0 %, offset +8.2 mV, pass', () => {
    const attempt = attemptOf(ph, a01, startEntry(ph.settings), 'mV')
    if (attempt.kind !== 'fitted') throw new Error(attempt.why)
    expect(attempt.fitted.verdict).toBe('pass')
    const lines = new Map(factLines(attempt.fitted.facts).map((line) => [line.name, line]))
    expect(lines.get('slopeMillivoltPerPh')?.digits).toBe('−56.02')
    expect(lines.get('slopePercent')?.digits).toBe('98.0')
    expect(lines.get('offsetMillivolt')?.digits).toBe('+8.2')
    expect(lines.has('largestResidualPh')).toBe(false)
    expect(Recipe.safeParse(attempt.recipe).success).toBe(true)
  })
  it('says in words what no gain means', () => {
    const attempt = attemptOf(ph, a01, { signalIs: 'amplified-unknown-gain' }, 'mV')
    if (attempt.kind !== 'fitted') throw new Error(attempt.why)
    expect(factLines(attempt.fitted.facts)[0]).toMatchObject({
      name: 'slopePercent',
      digits: null,
      words: 'cannot be known without the gain of the amplifier',
    })
  })
  it('fails swapped buffers (story A03b), and passes them swapped back', () => {
    const swapped = [kept(162, buffer('7', '10'), { key: 1 }), kept(-4, buffer('4', '10'), { key: 2 })]
    const before = attemptOf(ph, swapped, usual, 'mV')
    if (before.kind !== 'fitted') throw new Error(before.why)
    expect(before.fitted.verdict).toBe('fail')
    expect(before.fitted.advice.map(({ code }) => code)).toContain('buffers-swapped')
    const after = attemptOf(ph, swapBeakers(swapped), usual, 'mV')
    expect(after.kind === 'fitted' && after.fitted.facts['slopePercent']).toBeGreaterThan(90)
    expect(swapBeakers(swapBeakers(swapped))).toEqual(swapped)
  })
  it('does not crash with nothing, one point, or one buffer twice', () => {
    for (const procedure of PROCEDURES)
      expect(() => attemptOf(procedure, [], startEntry(procedure.settings), '')).not.toThrow()
    expect(attemptOf(ph, [], usual, 'mV')).toMatchObject({ kind: 'none', isFault: false })
    expect(attemptOf(ph, a01.slice(0, 1), usual, 'mV')).toMatchObject({
      why: '1 point kept; the curve needs 1 more.',
    })
    const twice = [kept(6, buffer('7'), { key: 1 }), kept(6.2, buffer('7'), { key: 2 })]
    expect(attemptOf(ph, twice, usual, 'mV')).toMatchObject({ kind: 'none', isFault: true })
  })
  it('names settings that are still to be typed, and the end that is missing', () => {
    expect(whatIsMissing(procedureOf('cup-sheet'), [], {})).toBe('Still to be typed above: offset, slope.')
    const dry: Captured = kept(800, { end: 'dry' })
    expect(whatIsMissing(procedureOf('dry-wet'), [dry, dry], {})).toBe('Keep one point in saturated soil.')
  })
  it('writes the channel’s unit into a curve that would otherwise take any', () => {
    const points = [kept(811, { end: 'dry' }), kept(407, { end: 'wet' })]
    const attempt = attemptOf(procedureOf('dry-wet'), points, {}, 'count')
    expect(attempt.kind === 'fitted' && attempt.recipe).toMatchObject({ signalUnit: 'count' })
  })
})

describe('what the recipe has no place for', () => {
  it('goes into the note: pairs of a light sensor, and points kept while moving', () => {
    const light = procedureOf('light-counts')
    const points = [kept(2471, { lux: '2000' }), kept(9889, { lux: '8000' }, { isForced: true })]
    const attempt = attemptOf(light, points, startEntry(light.settings), 'count')
    if (attempt.kind !== 'fitted') throw new Error(attempt.why)
    const note = noteOf('under cloud', light, points, attempt.recipe, 'count')
    expect(note).toContain('under cloud Kept while still moving: point 2. Pairs: 2471')
    expect(noteOf('x'.repeat(2000), light, points, attempt.recipe, 'count')).toHaveLength(1000)
    expect(noteOf('', ph, a01, { kind: 'ph-electrode', points: [] }, 'mV')).toBe('')
  })
  it('is advised on: few pairs, few ice points, haste', () => {
    expect(moreAdvice(procedureOf('light-counts'), [kept(1, { lux: '5' })])[0]?.code).toBe('few-pairs')
    expect(moreAdvice(procedureOf('ice-point'), [kept(0.1, { celsius: '0' })])[0]?.text).toContain(
      '1 point in',
    )
    expect(moreAdvice(procedureOf('dry-wet'), [kept(1, { end: 'dry' }, { isForced: true })])[0]?.code).toBe(
      'kept-moving',
    )
    expect(moreAdvice(ph, a01)).toEqual([])
  })
})

describe('a draft', () => {
  it('of another clock or left behind is not taken up', () => {
    const draft = { ...EMPTY_DRAFT, points: [kept(1, {}, { atMs: 1_000_000 })] }
    expect(fitToTime(draft, 1_500_000)).toBe(draft)
    expect(fitToTime(draft, 900_000)).toBe(EMPTY_DRAFT)
    expect(fitToTime(draft, 1_000_000 + 5 * 86_400_000)).toBe(EMPTY_DRAFT)
    expect(fitToTime({ points: 'no' } as never, 0)).toBe(EMPTY_DRAFT)
  })
  it('numbers its points on', () => {
    expect(nextKey([])).toBe(1)
    expect(nextKey(a01)).toBe(3)
  })
})

describe('rehearsal places', () => {
  it('send what they need and nothing else', () => {
    const fern = { board: 'fern-1', channel: 'ph' }
    const places = putPlacesFor('soil_ph')
    expect(putWish(fern, places[0]!, {})).toEqual({ ...fern, where: 'buffer-7', celsius: 17 })
    expect(putWish(fern, places[0]!, { celsius: '12,5' })).toMatchObject({ celsius: 12.5 })
    expect(putWish(fern, places.find(({ where }) => where === 'soil')!, {})).toEqual({
      ...fern,
      where: 'soil',
    })
    expect(amountsOf(places)).toHaveLength(1)
    expect(putPlacesFor('oxygen')).toEqual([])
  })
})
