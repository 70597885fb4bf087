import { describe, expect, test } from 'vitest'
import {
  type Captured,
  fitCalibration,
  isRefusal,
  PROCEDURES,
  proceduresFor,
} from '../../calibration/index.ts'

const point = (signal: number, fields: Captured['fields'], over: Partial<Captured> = {}): Captured => ({
  signal,
  scatter: 0.1,
  n: 4,
  isForced: false,
  secondsToSteady: 30,
  fields,
  role: 'fit',
  ...over,
})
const fitOf = (id: string, points: Captured[], settings: Captured['fields'] = {}) => {
  const recipe = PROCEDURES.find((procedure) => procedure.id === id)!.recipe(points, settings)
  const fitted = fitCalibration(recipe)
  if (isRefusal(fitted)) throw new Error(`${fitted.code}: ${fitted.message}`)
  return { recipe, fitted }
}

describe('a procedure turns what was captured and typed into a recipe that fits', () => {
  test('pH buffers: 7 at 6.0 mV, 4 at 176.3 mV, 15 °C gives 98.0 % and 8.2 mV (worked example A01, technical buffers)', () => {
    const buffer = (name: string) => ({
      bufferSet: 'technical',
      buffer: name,
      temperatureCelsius: '15',
      lot: 'B12',
    })
    const { recipe, fitted } = fitOf(
      'ph-buffers',
      [point(6, buffer('7')), point(176.3, buffer('4'), { isForced: true })],
      { signalIs: 'electrode' },
    )
    expect(fitted.facts['slopePercent']).toBeCloseTo(98.0, 1)
    expect(fitted.facts['offsetMillivolt']).toBeCloseTo(8.2, 1)
    expect(recipe).toMatchObject({ points: [{ lot: 'B12', scatterMillivolt: 0.1, n: 4 }, { forced: true }] })
  })
  test('pH buffers: an amplifier is undone, an unknown gain is said to be unknowable', () => {
    const typed = (ph: number) => ({ ph, temperatureCelsius: 25 })
    const points = [point(1500 + 3 * 0, typed(7)), point(1500 + 3 * 177.48, typed(4))]
    const known = fitOf('ph-buffers', points, { gain: 3, biasMillivolt: '1500' })
    expect(known.fitted.facts['slopePercent']).toBeCloseTo(100.0, 1)
    const unknown = fitOf('ph-buffers', points, { signalIs: 'amplified-unknown-gain' })
    expect(unknown.fitted.facts['slopePercent']).toBeNull()
  })
  test('dry and wet ends, in whichever order they were kept; the last of each counts', () => {
    const { recipe } = fitOf('dry-wet', [
      point(400, { end: 'wet' }),
      point(820, { end: 'dry' }),
      point(410, { end: 'wet' }),
    ])
    expect(recipe).toMatchObject({ kind: 'wetness-span', drySignal: 820, wetSignal: 410 })
  })
  test('oven samples give the worked example A05: raw 2000 is 0.223 m³/m³', () => {
    const ring = (wetGram: number, dryGram: number) => ({
      wetGram,
      dryGram,
      tinGram: 25,
      ringCubicCentimetre: 80,
    })
    const { fitted } = fitOf('oven', [point(1620, ring(145.6, 121)), point(2680, ring(123.5, 117.8))], {
      soil: 'meadow clay',
    })
    const value = fitted.valueAt(2000)
    expect(!isRefusal(value) && value.value).toBeCloseTo(0.223, 3)
    expect(fitted.unit).toBe('m3/m3')
  })
  test('light pairs give the factor 40000/38000, and the covered sensor its dark offset', () => {
    const counts = (luxRead: number) => luxRead * 1.2
    const pairs = [point(counts(38_000), { lux: '40000' }), point(counts(3), { lux: 0 })]
    expect(fitOf('light-counts', pairs, { sensor: 'bh1750' }).recipe).toMatchObject({
      factor: expect.closeTo(1.0526, 4),
      darkLux: expect.closeTo(3, 9),
    })
    expect(fitOf('light-counts', [], { sensor: 'bh1750' }).recipe).toEqual({
      kind: 'light-counts',
      sensor: 'bh1750',
    })
  })
  test('melting ice gives the offset −0.615 °C of the worked example A08, the second point is only checked', () => {
    const points = [0.62, 0.6, 0.63, 0.61].map((signal) => point(signal, { celsius: 0 }))
    const { fitted } = fitOf('ice-point', [...points, point(20.7, { celsius: 20 })])
    expect(fitted.facts['offsetCelsius']).toBeCloseTo(-0.615, 9)
    const value = fitted.valueAt(20.7)
    expect(!isRefusal(value) && value.value).toBeCloseTo(20.085, 9)
  })
  test('cup pairs on a line give that line back; a sheet’s factor is taken as it stands', () => {
    const pairs = [1, 5, 10].map((hertz) => point(hertz, { metresPerSecond: 0.3 + 0.66 * hertz }))
    const { fitted } = fitOf('cup-pairs', pairs)
    const value = fitted.valueAt(3)
    expect(!isRefusal(value) && value.value).toBeCloseTo(2.28, 9)
    expect(
      fitOf('cup-sheet', [], { offsetMetresPerSecond: '0,30', slopeMetresPerSecondPerHertz: 0.66 }).recipe,
    ).toEqual({
      kind: 'cup-anemometer',
      offsetMetresPerSecond: 0.3,
      slopeMetresPerSecondPerHertz: 0.66,
    })
  })
  test('a point kept as a check is never part of the fit', () => {
    const typed = (ph: number) => ({ ph, temperatureCelsius: 25 })
    const two = [point(0, typed(7)), point(177.48, typed(4))]
    const withCheck = fitOf('ph-buffers', [...two, point(-150, typed(10), { role: 'check' })])
    expect(withCheck.fitted.facts['slopeMillivoltPerPh']).toBe(
      fitOf('ph-buffers', two).fitted.facts['slopeMillivoltPerPh'],
    )
  })
})

describe('what a person meets at the bench', () => {
  test('every quantity of a habitat study has a procedure of its own before those for any probe', () => {
    for (const quantity of ['soil_ph', 'soil_moisture', 'illuminance', 'soil_temperature', 'wind_speed'])
      expect(proceduresFor(quantity)[0]!.quantity).toBe(quantity)
    expect(proceduresFor('leaf_wetness').map(({ id }) => id)).toEqual(['straight-line', 'value-from-board'])
  })
  test('each says what comes out, what to do, and where work can hurt someone defers to the school’s own rules', () => {
    for (const { quantity, gives, steps, cautions, perPoint } of PROCEDURES) {
      expect(gives.length).toBeGreaterThan(10)
      expect(steps.length).toBeGreaterThan(0)
      expect(perPoint.length).toBeGreaterThan(0)
      if (quantity !== '') expect(cautions.at(-1)).toMatch(/risk assessment/)
    }
  })
  test('missing points are refused in words, not thrown', () => {
    for (const { id, recipe, fewestPoints } of PROCEDURES)
      if (fewestPoints > 0) expect([id, isRefusal(fitCalibration(recipe([], {})))]).toEqual([id, true])
  })
  test('a reference is named in the unit of the values, or not at all', () => {
    const byId = (id: string) => PROCEDURES.find((procedure) => procedure.id === id)!
    const buffer = byId('ph-buffers').reference({
      bufferSet: 'technical',
      buffer: '7',
      temperatureCelsius: 15,
    })
    expect(buffer).toEqual({ value: 7.04, name: 'technical pH 7 buffer' })
    expect(byId('ph-buffers').reference({ bufferSet: 'technical', buffer: '7' })).toBeNull()
    expect(byId('dry-wet').reference({ end: 'wet' })).toEqual({ value: 1, name: 'saturated soil' })
    expect(byId('ice-point').reference({ celsius: 0 })).toEqual({ value: 0, name: 'melting ice' })
  })
})
