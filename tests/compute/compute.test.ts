import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../calibration/index.ts'
import { COMPUTATIONS, describeComputations, runComputation } from '../../hub/compute/index.ts'

/** The answer, having gone through JSON on the way in and out; fails on a refusal or an output off its schema. */
function compute(name: string, input: unknown): Record<string, never> {
  const answer = runComputation(name, JSON.parse(JSON.stringify(input)))
  if (isRefusal(answer)) throw new Error(`${answer.code}: ${answer.message}`)
  const computation = COMPUTATIONS.find((each) => each.name === name)!
  const through = JSON.parse(JSON.stringify(answer))
  expect(computation.output.safeParse(through).error).toBeUndefined()
  return through
}

function expectRefusal(name: string, input: unknown, code: string): string {
  const answer = runComputation(name, input)
  if (!isRefusal(answer)) throw new Error(`${name} answered ${JSON.stringify(answer)}`)
  expect(answer.code).toBe(code)
  return answer.message
}

const CUP = { offsetMetresPerSecond: 0.3, slopeMetresPerSecondPerHertz: 0.66 }
const RING = { wetGram: 145.6, dryGram: 121, tinGram: 25, ringCubicCentimetre: 80 }
const DRY_RING = { wetGram: 123.5, dryGram: 117.8, tinGram: 25, ringCubicCentimetre: 80 }

describe('each computation answers with its published or defined figure', () => {
  // sources stand beside the same figures in tests/calibration
  const cases: [name: string, input: unknown, output: Record<string, unknown>][] = [
    ['buffer-ph', { set: 'nist', buffer: 'phthalate', temperatureCelsius: 25 }, { ph: 4.005 }],
    ['buffer-ph', { set: 'technical', buffer: 7, temperatureCelsius: 15 }, { ph: 7.04 }],
    ['nernst-slope', { temperatureCelsius: 25 }, { millivoltPerPh: expect.closeTo(59.15935, 5) }],
    [
      'ph-two-point',
      {
        points: [
          { ph: 7.04, millivolt: 6 },
          { ph: 4, millivolt: 176.3 },
        ],
        temperatureCelsius: 15,
      },
      {
        slopeMillivoltPerPh: expect.closeTo(-56.02, 2),
        slopePercent: expect.closeTo(97.98, 2),
        offsetMillivolt: expect.closeTo(8.24, 2),
        verdict: 'pass',
        advice: [],
      },
    ],
    [
      'ph-two-point',
      {
        points: [
          { bufferSet: 'technical', buffer: '7', millivolt: 6 },
          { bufferSet: 'technical', buffer: '4', millivolt: 176.3, temperatureCelsius: 15 },
        ],
        temperatureCelsius: 15,
        signalIs: 'electrode',
        amplifier: { gain: 1, biasMillivolt: 0 },
      },
      { slopeMillivoltPerPh: expect.closeTo(-56.02, 2) },
    ],
    [
      'ph-from-signal',
      { calibration: { slopePercent: 97.98, offsetMillivolt: 8.24 }, millivolt: 84, temperatureCelsius: 15 },
      { ph: expect.closeTo(5.65, 2) },
    ],
    [
      'cup-wind',
      { pulses: 1380, seconds: 600, ...CUP },
      { metresPerSecond: expect.closeTo(1.818, 9), calm: false },
    ],
    ['cup-wind', { pulses: 0, seconds: 600, ...CUP }, { metresPerSecond: 0, calm: true }],
    [
      'cup-fit',
      { pairs: [1, 5, 10].map((hertz) => ({ hertz, metresPerSecond: 0.3 + 0.66 * hertz })) },
      {
        offsetMetresPerSecond: expect.closeTo(0.3, 9),
        slopeMetresPerSecondPerHertz: expect.closeTo(0.66, 9),
        verdict: 'pass',
      },
    ],
    [
      'illuminance-from-counts',
      { sensor: 'bh1750', counts: 1000 },
      { lux: expect.closeTo(833.3333, 4), saturated: false },
    ],
    [
      'illuminance-from-counts',
      { sensor: 'bh1750', counts: 65535, mtreg: 254, mode: 2 },
      { lux: expect.closeTo(7417.8396, 4), saturated: true },
    ],
    [
      'illuminance-from-counts',
      { sensor: 'tsl2561', counts: 1000, infraredCounts: 550, package: 'CS' },
      { lux: expect.closeTo(6.895, 6), saturated: false },
    ],
    ['platinum', { ohm: 138.5055 }, { celsius: expect.closeTo(100, 3) }],
    ['platinum', { ohm: 84.2707 }, { celsius: expect.closeTo(-40, 3) }],
    [
      'platinum-resistance',
      { celsius: 100 },
      { ohm: expect.closeTo(138.5055, 4), classAToleranceCelsius: 0.35 },
    ],
    ['digital-temperature', { word: '0xFF5E' }, { celsius: -10.125 }],
    ['digital-temperature', { word: 401 }, { celsius: 25.0625 }],
    ['ice-point', { readings: [0.62, 0.6, 0.63, 0.61] }, { offsetCelsius: expect.closeTo(-0.615, 9) }],
    [
      'thermistor-fit',
      {
        points: [
          { ohm: 32128, celsius: 0 },
          { ohm: 9814, celsius: 25 },
          { ohm: 3542, celsius: 50 },
        ],
      },
      {
        a: expect.closeTo(1.10415912e-3, 10),
        b: expect.closeTo(2.38917947e-4, 11),
        c: expect.closeTo(6.9316265e-8, 14),
      },
    ],
    [
      'thermistor',
      { ohm: 9814, a: 1.104159124809227e-3, b: 2.3891794671477326e-4, c: 6.931626525986433e-8 },
      { celsius: expect.closeTo(25, 6) },
    ],
    [
      'thermistor-beta',
      { ohm: 27280, ohmAt25: 10000, betaKelvin: 3435 },
      { celsius: expect.closeTo(1.11, 3) },
    ],
    ['permittivity-moisture', { permittivity: 20 }, { volumetricWaterContent: expect.closeTo(0.3454, 9) }],
    ['moisture-permittivity', { volumetricWaterContent: 0.2 }, { permittivity: expect.closeTo(10.1164, 4) }],
    [
      'gravimetric-moisture',
      RING,
      {
        gravimetric: expect.closeTo(0.25625, 9),
        bulkDensity: expect.closeTo(1.2, 9),
        volumetricWaterContent: expect.closeTo(0.3075, 9),
      },
    ],
    [
      'water-content-fit',
      {
        samples: [
          { signal: 1620, ...RING },
          { signal: 2680, ...DRY_RING },
        ],
        signal: 2000,
      },
      {
        slope: expect.closeTo(-0.00022288, 8),
        volumetricWaterContent: expect.closeTo(0.223, 3),
        square: null,
      },
    ],
    [
      'water-content-fit',
      {
        samples: [
          { signal: 1620, ...RING },
          { signal: 2680, ...DRY_RING },
        ],
      },
      { volumetricWaterContent: null },
    ],
    [
      'relative-wetness',
      { drySignal: 820, wetSignal: 410, signal: 615 },
      { relativeWetness: 0.5, remarks: [] },
    ],
    [
      'light-fit',
      {
        law: 'straight',
        points: [
          { signal: 0, lux: 0 },
          { signal: 100, lux: 5000 },
        ],
        signal: 100,
        fullScaleSignal: 1023,
      },
      { lux: expect.closeTo(5000, 6), remarks: [] },
    ],
    [
      'light-fit',
      {
        law: 'power',
        points: [
          { signal: 1000, lux: 10 },
          { signal: 10, lux: 1000 },
        ],
        signal: 100,
      },
      { lux: expect.closeTo(100, 6) },
    ],
    [
      'side-by-side',
      { pairs: [{ probeLux: 38000, referenceLux: 40000 }] },
      { factor: expect.closeTo(1.0526, 4) },
    ],
    [
      'relative-light',
      {
        probeLux: 3450,
        at: '10:42:10',
        factor: 1.0526316,
        reference: [
          { at: '10:42:15', lux: 39700 },
          { at: '10:42:00', lux: 41200 },
        ],
      },
      {
        relativePercent: expect.closeTo(9.03, 2),
        referenceLux: expect.closeTo(40200, 6),
        nearestSeconds: expect.closeTo(5, 9),
      },
    ],
    [
      'relative-light-bracket',
      { openBeforeLux: 900, quadratLux: 100, openAfterLux: 1100 },
      { relativePercent: 10 },
    ],
    ['ppfd-estimate', { lux: 108000 }, { ppfdMicromolPerM2S: 2000, isIndicativeOnly: true }],
    [
      'wind-summary',
      { counts: [3, 4, 9, 8, 7, 4, 3], ...CUP },
      { gustMetresPerSecond: expect.closeTo(5.58, 9) },
    ],
    ['wind-speeds', { metresPerSecond: [1, 2, 3, 4] }, { meanMetresPerSecond: 2.5, gustMetresPerSecond: 3 }],
    ['wind-height', { metresPerSecond: 3.2, heightMetres: 10 }, { at2Metres: expect.closeTo(2.393443, 6) }],
    [
      'log-profile',
      { metresPerSecond: 3, fromMetres: 2, toMetres: 10 },
      { atHeightMetresPerSecond: expect.closeTo(4.1497, 3) },
    ],
    [
      'log-profile',
      { metresPerSecond: 3, fromMetres: 2, toMetres: 2, roughnessMetres: 0.1, displacementMetres: 0.5 },
      { atHeightMetresPerSecond: 3 },
    ],
    ['wind-force', { metresPerSecond: 5.5 }, { force: 4, name: 'moderate breeze' }],
    [
      'drift',
      {
        calibratedAt: '2026-05-06T09:30:00Z',
        checkedAt: '2026-05-06T14:30:00Z',
        readAt: '2026-05-06T11:30:00Z',
        reading: 5.48,
        checks: [
          { reference: 4, reading: 4.12 },
          { reference: 7.06, reading: 7.1 },
        ],
      },
      { corrected: expect.closeTo(5.4466, 4), errorAtCheck: expect.closeTo(0.0835, 4) },
    ],
    [
      'drift',
      {
        calibratedAt: '09:30',
        checkedAt: '14:30',
        readAt: '11:30',
        reading: 5.48,
        checks: [{ reference: 4, reading: 4.12 }],
      },
      { corrected: expect.closeTo(5.432, 9) },
    ],
    [
      'drift',
      {
        calibratedAt: 0,
        checkedAt: 20,
        readAt: 10,
        reading: 5,
        checks: [{ reference: 5, reading: 5.3 }],
        fouling: { beforeCleaning: 5, afterCleaning: 5.1 },
      },
      { corrected: expect.closeTo(4.9, 9) },
    ],
    ['accuracy-rating', { quantity: 'soil_ph', corrections: [0.1, -0.1] }, { rating: 'excellent' }],
    [
      'steadiness',
      {
        quantity: 'soil_ph_buffer',
        samples: [6.42, 6.18, 6.05, 5.97, 5.93, 5.92, 5.91, 5.91].map((value, k) => ({
          seconds: 5 * k,
          value,
        })),
      },
      { steady: true, value: expect.closeTo(5.9175, 9), heldAtSeconds: 35 },
    ],
    [
      'steadiness',
      { rule: { windowSeconds: 10, minimumSamples: 2, span: 1 }, samples: [{ seconds: 0, value: 1 }] },
      { steady: false, value: null, heldAtSeconds: null },
    ],
    [
      'board-clock',
      {
        syncs: [
          { uptimeMs: 12000, at: '2026-05-06T10:00:00Z' },
          { uptimeMs: 7214400, at: '2026-05-06T12:00:00Z' },
        ],
        uptimeMs: 3613200,
      },
      { at: '2026-05-06T11:00:00.000Z', fastPpm: expect.closeTo(333.33, 2) },
    ],
    ['line-fit', { x: [1, 2, 3], y: [1, 2, 4] }, { slope: expect.closeTo(1.5, 12), degreesOfFreedom: 1 }],
    ['origin-line-fit', { x: [1, 2], y: [2, 4] }, { slope: 2, residualStandardDeviation: 0 }],
    [
      'expanded-uncertainty',
      { sources: [{ standardUncertainty: 0.0384 }, { standardUncertainty: 0.0693, degreesOfFreedom: 2 }] },
      { standardUncertainty: expect.closeTo(0.079, 3), expandedUncertainty: expect.closeTo(0.24, 2) },
    ],
    [
      'expanded-uncertainty',
      { standardUncertainty: 0.1 },
      { degreesOfFreedom: null, coverageFactor: expect.closeTo(1.959964, 6) },
    ],
    ['student-t', { degreesOfFreedom: 2, twoTailed: 0.05 }, { t: expect.closeTo(4.302653, 6) }],
    ['student-t', { degreesOfFreedom: null, twoTailed: 0.05 }, { t: expect.closeTo(1.959964, 6) }],
  ]

  test.each(cases)('%s %j', (name, input, output) => {
    expect(compute(name, input)).toMatchObject(output)
  })

  test('no computation is left untried', () => {
    const folder = new URL('.', import.meta.url)
    const texts = readdirSync(folder).map((file) => readFileSync(new URL(file, folder), 'utf8'))
    // the wire's own computation is proven beside the wire, and those of a plan beside the plan
    const elsewhere = ['senml-resolve', 'plan-draw', 'walk-order']
    const untried = COMPUTATIONS.map((each) => each.name).filter(
      (name) => !elsewhere.includes(name) && !texts.some((text) => text.includes(`'${name}'`)),
    )
    expect(untried).toEqual([])
  })
})

describe('mistakes of a class are refused or fail with advice', () => {
  const ph = (first: [number, number], second: [number, number]) => ({
    points: [first, second].map(([value, millivolt]) => ({ ph: value, millivolt })),
    temperatureCelsius: 10,
  })

  test('swapped buffers, equal answers and a slope of 40 % are verdict fail with advice', () => {
    for (const input of [
      ph([7.06, 162], [4, -4]),
      ph([7.06, 3], [4, 8]),
      ph([7.06, 5], [4, 5]),
      ph([7, 0], [4, 67]),
    ]) {
      const answer = compute('ph-two-point', input) as unknown as { verdict: string; advice: string[] }
      expect(answer.verdict).toBe('fail')
      expect(answer.advice.length).toBeGreaterThan(0)
    }
  })

  test('an unknown gain leaves the slope in percent unknown', () => {
    const input = { ...ph([7, 1500], [4, 1000]), signalIs: 'amplified-unknown-gain' }
    expect(compute('ph-two-point', input)).toMatchObject({ slopePercent: null, verdict: 'warn' })
  })

  test.each([
    ['ph-two-point', ph([4, 6], [4, 170]), 'E_SAME_REFERENCE'],
    ['buffer-ph', { set: 'nist', buffer: 'phthalate', temperatureCelsius: 60 }, 'E_TEMPERATURE_RANGE'],
    ['buffer-ph', { set: 'nist', buffer: 'water', temperatureCelsius: 20 }, 'E_BUFFER_UNKNOWN'],
    [
      'ph-from-signal',
      { calibration: { slopePercent: 0, offsetMillivolt: 0 }, millivolt: 1, temperatureCelsius: 15 },
      'E_SLOPE_ZERO',
    ],
    [
      'ph-from-signal',
      { calibration: { slopePercent: 98, offsetMillivolt: 0 }, millivolt: 1, temperatureCelsius: 150 },
      'E_TEMPERATURE_RANGE',
    ],
    ['cup-wind', { pulses: -3, seconds: 60, ...CUP }, 'E_COUNT'],
    ['cup-wind', { pulses: 3, seconds: 0, ...CUP }, 'E_INTERVAL'],
    ['illuminance-from-counts', { sensor: 'bh1750', counts: 1, mtreg: 30 }, 'E_SETTING'],
    ['illuminance-from-counts', { sensor: 'tsl2561', counts: 1 }, 'E_SECOND_CHANNEL'],
    ['platinum', { ohm: 5 }, 'E_SIGNAL_RANGE'],
    ['platinum', { ohm: 100, ohmAtZero: 0 }, 'E_SETTING'],
    ['platinum-resistance', { celsius: 851 }, 'E_TEMPERATURE_RANGE'],
    ['platinum-resistance', { celsius: 20, ohmAtZero: -1 }, 'E_SETTING'],
    ['digital-temperature', { word: 'hot' }, 'E_SETTING'],
    ['thermistor', { ohm: 0, a: 1, b: 1, c: 1 }, 'E_SIGNAL_RANGE'],
    ['thermistor', { ohm: 100, a: -1, b: 0, c: 0 }, 'E_SETTING'],
    ['thermistor-beta', { ohm: 0, ohmAt25: 1, betaKelvin: 1 }, 'E_SIGNAL_RANGE'],
    ['thermistor-beta', { ohm: 1, ohmAt25: 0, betaKelvin: 1 }, 'E_SETTING'],
    ['thermistor-beta', { ohm: 1e-300, ohmAt25: 1e4, betaKelvin: 3435 }, 'E_SIGNAL_RANGE'],
    ['permittivity-moisture', { permittivity: 0.5 }, 'E_SIGNAL_RANGE'],
    ['moisture-permittivity', { volumetricWaterContent: 1.1 }, 'E_SETTING'],
    ['gravimetric-moisture', { ...RING, dryGram: 150 }, 'E_MASS_ORDER'],
    ['water-content-fit', { samples: [{ signal: 1, ...RING }] }, 'E_POINTS_FEW'],
    ['relative-wetness', { drySignal: 1, wetSignal: 1, signal: 1 }, 'E_SAME_SIGNAL'],
    [
      'light-fit',
      {
        law: 'power',
        points: [
          { signal: 1, lux: 0 },
          { signal: 2, lux: 3 },
        ],
        signal: 1,
      },
      'E_SETTING',
    ],
    [
      'relative-light',
      { probeLux: 1, at: 0, reference: [{ at: 0, lux: 9, saturated: true }] },
      'E_REFERENCE_SATURATED',
    ],
    ['relative-light', { probeLux: 1, at: 0, reference: [{ at: 'noon', lux: 9 }] }, 'E_NOT_FINITE'],
    ['relative-light', { probeLux: 1, at: 'noon', reference: [] }, 'E_NOT_FINITE'],
    [
      'relative-light-bracket',
      { openBeforeLux: 100, quadratLux: 1, openAfterLux: 200 },
      'E_REFERENCE_UNSTEADY',
    ],
    ['wind-height', { metresPerSecond: 3, heightMetres: 0.08 }, 'E_HEIGHT'],
    ['wind-force', { metresPerSecond: -1 }, 'E_SETTING'],
    ['drift', { calibratedAt: 'dawn', checkedAt: 2, readAt: 1, reading: 1, checks: [] }, 'E_NOT_FINITE'],
    ['drift', { calibratedAt: '09:99', checkedAt: 2, readAt: 1, reading: 1, checks: [] }, 'E_NOT_FINITE'],
    [
      'drift',
      { calibratedAt: 2, checkedAt: 1, readAt: 1, reading: 1, checks: [{ reference: 1, reading: 1 }] },
      'E_INTERVAL',
    ],
    ['steadiness', { quantity: 'smell', samples: [] }, 'E_SETTING'],
    [
      'steadiness',
      {
        samples: [
          { seconds: 5, value: 1 },
          { seconds: 0, value: 1 },
        ],
      },
      'E_INTERVAL',
    ],
    ['board-clock', { syncs: [{ uptimeMs: 0, at: 'now' }], uptimeMs: 0 }, 'E_NOT_FINITE'],
    ['board-clock', { syncs: [{ uptimeMs: 0, at: '2026-05-06T10:00:00Z' }], uptimeMs: 1e300 }, 'E_INTERVAL'],
    ['board-clock', { syncs: [], uptimeMs: 0 }, 'E_POINTS_FEW'],
    ['expanded-uncertainty', {}, 'E_POINTS_FEW'],
  ])('%s %j is refused with %s', (name, input, code) => {
    expect(expectRefusal(name, input, code).length).toBeGreaterThan(15)
  })
})

describe('the shape of the input', () => {
  test('a wrong field is named by its path with what was received', () => {
    const input = {
      points: [
        { ph: 7, millivolt: 1 },
        { ph: 'four', millivolt: 2 },
      ],
      temperatureCelsius: 20,
    }
    const message = expectRefusal('ph-two-point', input, 'E_INPUT')
    expect(message).toContain('points.1.ph')
    expect(message).toContain('"four"')
  })

  test('a missing field is named, and infinities and no-numbers are refused', () => {
    expect(expectRefusal('platinum', {}, 'E_INPUT')).toContain('“ohm”')
    expect(expectRefusal('platinum', {}, 'E_INPUT')).toContain('received nothing')
    expect(expectRefusal('platinum', { ohm: Number.POSITIVE_INFINITY }, 'E_INPUT')).toContain('Infinity')
    expectRefusal('platinum', { ohm: Number.NaN }, 'E_INPUT')
  })

  test.each([[null], [[]], ['text'], [3], [undefined]])('%j is no input for any computation', (input) => {
    for (const computation of COMPUTATIONS) expectRefusal(computation.name, input, 'E_INPUT')
  })

  test('an unknown name lists the known ones', () => {
    expect(expectRefusal('alchemy', {}, 'E_COMPUTATION')).toContain('buffer-ph')
  })
})

test('the list names, titles, sources and JSON schemas of every computation, each name once', () => {
  const listed = describeComputations()
  expect(listed.length).toBe(COMPUTATIONS.length)
  expect(new Set(listed.map((each) => each.name)).size).toBe(listed.length)
  for (const each of listed) {
    expect(each.name).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/)
    expect(each.title.length).toBeGreaterThan(15)
    expect(each.source.length).toBeGreaterThan(4)
    expect(each.input).toMatchObject({ type: 'object' })
    expect(each.output).toMatchObject({ type: 'object' })
  }
  expect(JSON.parse(JSON.stringify(listed))).toHaveLength(listed.length)
})
