import { describe, expect, test } from 'vitest'
import {
  estimatePpfd,
  fitCalibration,
  isRefusal,
  relativeLight,
  relativeLightByBracket,
  sideBySideFactor,
} from '../../calibration/index.ts'
import { expectRefusal, fitted, readAt } from './expect-fitted.ts'
import { referenceJson } from './reference-files.ts'

const light = referenceJson('light.json')

describe('counts of a digital light sensor', () => {
  test('bh1750: published formula over register and mode, full scale saturated', () => {
    // BH1750FVI technical note 2009.04 Rev. B; lux printed to four decimals
    for (const { counts, MTreg, h_res_mode, lux } of light.bh1750.cases) {
      const curve = fitted({ kind: 'light-counts', sensor: 'bh1750', mtreg: MTreg, mode: h_res_mode })
      const value = readAt(curve, counts)
      expect(value.value).toBeCloseTo(lux, 3)
      expect(value.remarks).toEqual(counts === 65535 ? ['saturated'] : [])
      expect(curve.signalAt(value.value)).toBeCloseTo(counts, 6)
    }
  })

  test('tsl2561: published pieces for both packages', () => {
    // TSL2560/TSL2561 data sheet TAOS059K page 22
    for (const { package: sensorPackage, CH0, CH1, lux } of light.tsl2561.cases) {
      const curve = fitted({ kind: 'light-counts', sensor: 'tsl2561', package: sensorPackage })
      expect(readAt(curve, CH0, { infraredCounts: CH1 }).value).toBeCloseTo(lux, 3)
    }
  })

  test('tsl2561: low gain and short integration scale up; each has its own full scale', () => {
    const curve = fitted({ kind: 'light-counts', sensor: 'tsl2561', gain: 1, integration: 13.7 })
    const value = readAt(curve, 1000, { infraredCounts: 550 })
    expect(value.value).toBeCloseTo((5.35 * 16 * 402) / 13.7, 6)
    expect(readAt(curve, 5046, { infraredCounts: 100 }).remarks).toEqual([])
    expect(readAt(curve, 5047, { infraredCounts: 100 }).remarks).toEqual(['saturated'])
    expect(readAt(curve, 0, { infraredCounts: 0 }).value).toBe(0)
    expectRefusal(curve.valueAt(1000), 'E_SECOND_CHANNEL')
  })

  test('uncertainty: the published 0.96–1.44 counts per lx, or the side-by-side factor’s', () => {
    const bare = fitted({ kind: 'light-counts', sensor: 'bh1750' })
    // rectangular, half-width 0.24 of 1.2: 11.5 %
    expect(readAt(bare, 10000).standardUncertainty! / readAt(bare, 10000).value).toBeCloseTo(
      0.24 / Math.sqrt(3) / 1.2,
      4,
    )
    const beside = { kind: 'light-counts', sensor: 'bh1750', factor: 1.05 } as const
    expect(readAt(fitted(beside), 10000).standardUncertainty).toBeNull()
    const stated = fitted({ ...beside, factorRelativeStandardUncertainty: 0.03 })
    expect(readAt(stated, 10000).standardUncertainty! / readAt(stated, 10000).value).toBeCloseTo(0.03, 4)
    expect(readAt(stated, 10000).value).toBeCloseTo(8750, 6)
  })

  test('tsl2561: uncertainty from the factor alone, and the budget says so', () => {
    const tsl = { kind: 'light-counts', sensor: 'tsl2561', factor: 1 } as const
    const channels = { infraredCounts: 550 }
    expect(readAt(fitted(tsl), 1000, channels).standardUncertainty).toBeNull()
    const stated = fitted({ ...tsl, factorRelativeStandardUncertainty: 0.1 })
    expect(readAt(stated, 1000, channels).standardUncertainty).toBeCloseTo(0.535, 9)
    expect(stated.budget(1000, channels)).toHaveLength(1)
    expect(stated.signalAt(100)).toBeNull()
  })

  test('settings and counts that cannot be are refused: below, at, at, above', () => {
    const mtreg = (register: number) =>
      isRefusal(fitCalibration({ kind: 'light-counts', sensor: 'bh1750', mtreg: register }))
    expect([30, 31, 254, 255].map(mtreg)).toEqual([true, false, false, true])
    const curve = fitted({ kind: 'light-counts', sensor: 'bh1750' })
    expect([-1, 0, 65535, 65536].map((counts) => isRefusal(curve.valueAt(counts)))).toEqual([
      true,
      false,
      false,
      true,
    ])
    expectRefusal(curve.valueAt(-1), 'E_COUNT')
    expectRefusal(fitCalibration({ kind: 'light-counts', sensor: 'bh1750', factor: 0 }), 'E_SETTING')
  })

  test('a factor far from one warns, a covered sensor that sees light fails', () => {
    const verdict = (factor: number) => fitted({ kind: 'light-counts', sensor: 'bh1750', factor }).verdict
    expect([0.89, 0.9, 1.1, 1.11].map(verdict)).toEqual(['warn', 'pass', 'pass', 'warn'])
    expect(fitted({ kind: 'light-counts', sensor: 'bh1750', darkLux: 5 }).verdict).toBe('pass')
    expect(fitted({ kind: 'light-counts', sensor: 'bh1750', darkLux: 5.1 }).verdict).toBe('fail')
  })
})

describe('a photoresistor against a reference meter', () => {
  const points = [10, 100, 1000, 10000].map((lux) => ({ lux, signal: 50_000 * lux ** -0.7 }))

  test('the power law is found again: γ −0.7, exact in its points', () => {
    const curve = fitted({ kind: 'light-power', points })
    expect(curve.facts['gamma']).toBeCloseTo(-0.7, 9)
    expect(curve.facts['signalAtOneLux']).toBeCloseTo(50_000, 4)
    for (const point of points) expect(readAt(curve, point.signal).value / point.lux).toBeCloseTo(1, 9)
    expect(curve.signalAt(500)).toBeCloseTo(50_000 * 500 ** -0.7, 6)
    expect(curve.signalAt(0)).toBeNull()
    expect(readAt(curve, 60_000 * 5 ** -0.7).remarks).toEqual(['extrapolated'])
  })

  test('zero and negative signals, dark points and one light are refused', () => {
    const curve = fitted({ kind: 'light-power', points })
    expectRefusal(curve.valueAt(0), 'E_SIGNAL_RANGE')
    expect(curve.budget(0)).toEqual([])
    expectRefusal(
      fitCalibration({ kind: 'light-power', points: [...points, { signal: 9, lux: 0 }] }),
      'E_SETTING',
    )
    expectRefusal(fitCalibration({ kind: 'light-power', points: points.slice(0, 1) }), 'E_POINTS_FEW')
    expectRefusal(
      fitCalibration({ kind: 'light-power', points: [...points, { signal: 9, lux: -1 }] }),
      'E_SETTING',
    )
  })
})

describe('a straight light sensor between dark and a reference light', () => {
  const points = [
    { signal: 20, lux: 0 },
    { signal: 820, lux: 40_000 },
  ]

  test('both points are met; full scale is saturated', () => {
    const curve = fitted({ kind: 'light-span', points, fullScaleSignal: 1023 })
    expect(readAt(curve, 20).value).toBeCloseTo(0, 9)
    expect(readAt(curve, 420).value).toBeCloseTo(20_000, 6)
    expect(readAt(curve, 1022).remarks).toEqual(['extrapolated'])
    expect(readAt(curve, 1023).remarks).toEqual(['saturated'])
    expect(curve.signalAt(20_000)).toBeCloseTo(420, 9)
  })

  test('a saturated reference meter or sensor is refused', () => {
    const recipe = { kind: 'light-span', points } as const
    expectRefusal(
      fitCalibration({ ...recipe, points, referenceFullScaleLux: 40_000 }),
      'E_REFERENCE_SATURATED',
    )
    expect(isRefusal(fitCalibration({ ...recipe, points, referenceFullScaleLux: 40_001 }))).toBe(false)
    expectRefusal(fitCalibration({ ...recipe, points, fullScaleSignal: 820 }), 'E_SIGNAL_RANGE')
  })

  test('the reference meter’s own error is common to all points and grows with the light', () => {
    const curve = fitted({
      kind: 'light-span',
      points,
      signalScatter: 0,
      referenceRelativeStandardUncertainty: 0.04,
    })
    expect(readAt(curve, 420).standardUncertainty).toBeCloseTo(800, 6)
    expect(curve.budget(420).map((line) => line.name)).toEqual(['reference'])
  })
})

describe('side by side under open sky', () => {
  test('38 000 beside 40 000 lx gives k = 1.0526', () => {
    const found = sideBySideFactor([{ probeLux: 38_000, referenceLux: 40_000 }])
    if (isRefusal(found)) throw new Error(found.message)
    expect(found.factor).toBeCloseTo(1.0526, 4)
    expect(found.scatterOfRatios).toBeNull()
    expect(found.advice.map((each) => each.code)).toEqual(['few-pairs'])
  })

  test('ten even pairs pass; scattered ones warn; none, dark or saturated are refused', () => {
    const pairs = Array.from({ length: 10 }, (_, k) => ({
      probeLux: 1000 + k * 100,
      referenceLux: 1050 + k * 105,
    }))
    const found = sideBySideFactor(pairs)
    expect(found).toMatchObject({ verdict: 'pass', pairCount: 10 })
    const scattered = pairs.map((pair, k) => ({
      ...pair,
      referenceLux: pair.referenceLux * (k % 2 ? 1.1 : 0.95),
    }))
    expect(sideBySideFactor(scattered)).toMatchObject({ verdict: 'warn' })
    expectRefusal(sideBySideFactor([]), 'E_POINTS_FEW')
    expectRefusal(sideBySideFactor([{ probeLux: 0, referenceLux: 1 }]), 'E_SETTING')
    expectRefusal(
      sideBySideFactor([{ probeLux: 9, referenceLux: 9, saturated: true }]),
      'E_REFERENCE_SATURATED',
    )
  })
})

describe('relative light against the open sky at the same moment', () => {
  const factor = 40 / 38
  const at = (h: number, m: number, s: number) => h * 3600 + m * 60 + s
  const reference = [
    { seconds: at(10, 42, 0), lux: 41_200 },
    { seconds: at(10, 42, 15), lux: 39_700 },
    { seconds: at(11, 20, 0), lux: 72_000 },
    { seconds: at(11, 31, 0), lux: 54_612.5, saturated: true },
  ]
  const percent = (probeLux: number, seconds: number) =>
    relativeLight({ probeLux, seconds, factor, reference })

  test('the brighter quadrat is the darker one: 9.03 % and 7.46 %', () => {
    const first = percent(3450, at(10, 42, 10))
    const second = percent(5100, at(11, 20, 0))
    if (isRefusal(first) || isRefusal(second)) throw new Error('refused')
    expect(first.referenceLux).toBeCloseTo(40_200, 9)
    expect(first.relativePercent).toBeCloseTo(9.03, 2)
    expect(second.relativePercent).toBeCloseTo(7.46, 2)
    expect(first.remarks).toEqual([])
  })

  test('a saturated reference refuses the relative light', () => {
    expectRefusal(percent(4000, at(11, 31, 0)), 'E_REFERENCE_SATURATED')
  })

  test('even sky allows 15 s to the nearest reference, broken cloud 2 s', () => {
    const steady = [{ seconds: 100, lux: 1000 }]
    const remarks = (seconds: number, sky: 'even' | 'broken') => {
      const found = relativeLight({ probeLux: 100, seconds, reference: steady, sky })
      return isRefusal(found) ? found.code : found.remarks
    }
    expect([101.9, 102, 102.1].map((seconds) => remarks(seconds, 'broken'))).toEqual([
      [],
      [],
      ['reference-stale'],
    ])
    expect([85, 84.9, 115, 115.1].map((seconds) => remarks(seconds, 'even'))).toEqual([
      [],
      ['reference-stale'],
      [],
      ['reference-stale'],
    ])
    expect(remarks(400.1, 'even')).toBe('E_REFERENCE_STALE')
    expectRefusal(relativeLight({ probeLux: 1, seconds: 0, reference: [] }), 'E_REFERENCE_STALE')
  })

  test('a reference that changes by more than a tenth, or a quadrat brighter than the sky, is remarked', () => {
    const changing = [
      { seconds: 0, lux: 1000 },
      { seconds: 10, lux: 1120 },
    ]
    expect(relativeLight({ probeLux: 100, seconds: 5, reference: changing })).toMatchObject({
      remarks: ['reference-unsteady'],
    })
    expect(relativeLight({ probeLux: 1200, seconds: 0, reference: changing.slice(0, 1) })).toMatchObject({
      remarks: ['above-open-sky'],
    })
  })

  test('numbers that cannot be are refused', () => {
    const steady = [{ seconds: 0, lux: 0 }]
    expectRefusal(relativeLight({ probeLux: 1, seconds: 0, reference: steady }), 'E_SETTING')
    expectRefusal(relativeLight({ probeLux: -1, seconds: 0, reference: steady }), 'E_SETTING')
    expectRefusal(relativeLight({ probeLux: 1, seconds: Number.NaN, reference: steady }), 'E_NOT_FINITE')
    expectRefusal(relativeLight({ probeLux: 1, seconds: 0, factor: 0, reference: steady }), 'E_SETTING')
  })

  test('one meter: open – quadrat – open, refused when the sky changed by more than 20 %', () => {
    expect(relativeLightByBracket(900, 100, 1100)).toMatchObject({ relativePercent: 10, referenceLux: 1000 })
    expectRefusal(relativeLightByBracket(899, 100, 1101), 'E_REFERENCE_UNSTEADY')
    expectRefusal(relativeLightByBracket(0, 0, 0), 'E_SETTING')
  })
})

test('lux to photon flux by light source, with what another source would give', () => {
  // Thimijan & Heins 1983
  for (const { source, lux, ppfd } of light.lux_per_umol.cases) {
    const found = estimatePpfd(lux, source)
    if (isRefusal(found)) throw new Error(found.message)
    expect(found.ppfdMicromolPerM2S).toBeCloseTo(ppfd, 3)
    expect(found.lowMicromolPerM2S).toBeLessThanOrEqual(found.ppfdMicromolPerM2S)
    expect(found.highMicromolPerM2S).toBeGreaterThanOrEqual(found.ppfdMicromolPerM2S)
  }
  expectRefusal(estimatePpfd(-1), 'E_SETTING')
  expectRefusal(estimatePpfd(1, 'candle' as never), 'E_SETTING')
})
