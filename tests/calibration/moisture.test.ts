import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  fitCalibration,
  isRefusal,
  porosity,
  type SoilSample,
  type SoilWater,
  soilWater,
  solveToppPermittivity,
  toppPermittivity,
  toppWaterContent,
} from '../../calibration/index.ts'
import { expectRefusal, fitted, readAt } from './expect-fitted.ts'
import { referenceJson } from './reference-files.ts'

const soil = referenceJson('soil-moisture.json')

function water(wetGram: number, dryGram: number, tinGram: number, ringCubicCentimetre = 100): SoilWater {
  const answer = soilWater({ wetGram, dryGram, tinGram, ringCubicCentimetre })
  if (isRefusal(answer)) throw new Error(answer.message)
  return answer
}

describe('relative wetness between two signals', () => {
  test('counts that fall as soil gets wetter, in and outside the span', () => {
    // soil-moisture.json two_point_linear, pure arithmetic
    for (const { dry_raw, wet_raw, raw, percent } of soil.two_point_linear.cases) {
      const curve = fitted({ kind: 'wetness-span', drySignal: dry_raw, wetSignal: wet_raw })
      expect(100 * readAt(curve, raw).value).toBeCloseTo(percent, 4)
    }
  })

  test('ends of the span: below, at, at, above; 5 % beyond is impossible', () => {
    const curve = fitted({ kind: 'wetness-span', drySignal: 800, wetSignal: 400 })
    expect(readAt(curve, 801).remarks).toEqual(['extrapolated'])
    expect(readAt(curve, 800).remarks).toEqual([])
    expect(readAt(curve, 400).remarks).toEqual([])
    expect(readAt(curve, 399).remarks).toEqual(['extrapolated'])
    expect(readAt(curve, 379).remarks).toEqual(['extrapolated', 'impossible'])
    expect(readAt(curve, 379).value).toBeCloseTo(1.0525, 9)
  })

  test('without stated scatter the uncertainty is unknown; with it, it grows from the middle outwards', () => {
    const ends = { kind: 'wetness-span', drySignal: 800, wetSignal: 400 } as const
    expect(readAt(fitted(ends), 600).standardUncertainty).toBeNull()
    const curve = fitted({ ...ends, dryScatter: 4, wetScatter: 4, n: 10 })
    // at the middle s²(1 + 1/10 · 1/2), at an end s²(1 + 1/10), s = 4/400
    expect(readAt(curve, 600).standardUncertainty).toBeCloseTo(0.01 * Math.sqrt(1.05), 9)
    expect(readAt(curve, 400).standardUncertainty).toBeCloseTo(0.01 * Math.sqrt(1.1), 9)
  })

  test('equal ends are refused; a span lost in scatter fails; an end that moved warns', () => {
    expectRefusal(fitCalibration({ kind: 'wetness-span', drySignal: 500, wetSignal: 500 }), 'E_SAME_SIGNAL')
    const ends = { kind: 'wetness-span', drySignal: 510, wetSignal: 500 } as const
    expect(fitted({ ...ends, dryScatter: 2 }).verdict).toBe('fail')
    const earlier = { drySignal: 800, wetSignal: 387 }
    expect(fitted({ kind: 'wetness-span', drySignal: 800, wetSignal: 400, earlier }).verdict).toBe('warn')
    expect(
      fitted({
        kind: 'wetness-span',
        drySignal: 800,
        wetSignal: 400,
        earlier: { drySignal: 800, wetSignal: 388 },
      }).verdict,
    ).toBe('pass')
  })
})

describe('soil weighed before and after the oven', () => {
  test('published and defined cases', () => {
    // soil-moisture.json gravimetric: ISO 11465 dry basis
    for (const each of soil.gravimetric.cases) {
      const tin = each.tin_g ?? 0
      const found = water(
        each.moist_plus_tin_g ?? each.m_wet_g,
        each.dry_plus_tin_g ?? each.m_dry_g,
        tin,
        each.volume_cm3,
      )
      expect(found.gravimetric).toBeCloseTo(each.w, 6)
      if (each.wet_basis_percent) expect(100 * found.wetBasis).toBeCloseTo(each.wet_basis_percent, 3)
      if (each.theta_v) expect(found.volumetricWaterContent).toBeCloseTo(each.theta_v, 6)
      if (each.bulk_density) expect(found.bulkDensity).toBeCloseTo(each.bulk_density, 6)
    }
    // soil-moisture.json bulk_density: stored exercise page prints 1.44
    expect(water(600, 575, 0, 400).bulkDensity).toBeCloseTo(1.4375, 9)
    expect(porosity(1.325)).toBeCloseTo(0.5, 9)
  })

  test('an oven does not make soil heavier, and a tin is lighter than tin with soil', () => {
    const sample = { wetGram: 100, dryGram: 90, tinGram: 20, ringCubicCentimetre: 80 }
    expectRefusal(soilWater({ ...sample, dryGram: 101 }), 'E_MASS_ORDER')
    expect(isRefusal(soilWater({ ...sample, dryGram: 100 }))).toBe(false)
    expectRefusal(soilWater({ ...sample, tinGram: 90 }), 'E_MASS_ORDER')
    expectRefusal(soilWater({ ...sample, tinGram: -1 }), 'E_MASS_ORDER')
    expectRefusal(soilWater({ ...sample, ringCubicCentimetre: 0 }), 'E_SETTING')
    expectRefusal(soilWater({ ...sample, wetGram: Number.NaN }), 'E_NOT_FINITE')
  })
})

describe('a moisture probe against the oven', () => {
  const wet: SoilSample = { signal: 1620, wetGram: 145.6, dryGram: 121, tinGram: 25, ringCubicCentimetre: 80 }
  const dry: SoilSample = {
    signal: 2680,
    wetGram: 123.5,
    dryGram: 117.8,
    tinGram: 25,
    ringCubicCentimetre: 80,
  }
  const recipe = { kind: 'water-content-fit', samples: [wet, dry], soil: 'meadow' } as const

  test('two samples give θ = 0.66856 − 0.00022288 · signal', () => {
    const curve = fitted({ ...recipe, samples: [wet, dry] })
    expect(curve.facts['slope']).toBeCloseTo(-0.00022288, 8)
    expect(curve.facts['intercept']).toBeCloseTo(0.66856, 5)
    expect(curve.unit).toBe('m3/m3')
    expect(readAt(curve, 2000).value).toBeCloseTo(0.223, 3)
    expect(readAt(curve, 2000).remarks).toEqual([])
    expect(readAt(curve, 2000).standardUncertainty).toBeNull()
    expect(curve.advice.map((each) => each.code)).toEqual(['uncertainty-unknown'])
  })

  test('outside the samples: given, remarked, never clipped', () => {
    const curve = fitted({ ...recipe, samples: [wet, dry] })
    expect(readAt(curve, 2680).remarks).toEqual([])
    expect(readAt(curve, 2900)).toMatchObject({ remarks: ['extrapolated'] })
    expect(readAt(curve, 2900).value).toBeCloseTo(0.022, 3)
    expect(readAt(curve, 3100).remarks).toContain('impossible')
    expect(readAt(curve, 3100).value).toBeCloseTo(-0.022, 3)
    // above the pore space 1 − ρ_b/2.65 of the looser sample
    expect(readAt(curve, 100).remarks).toContain('impossible')
  })

  test('a stated sample uncertainty is carried through the line', () => {
    const curve = fitted({ ...recipe, samples: [wet, dry], sampleStandardUncertainty: 0.01 })
    expect(readAt(curve, 1620).standardUncertainty).toBeCloseTo(0.01, 9)
    expect(readAt(curve, 2150).standardUncertainty).toBeCloseTo(0.01 / Math.SQRT2, 9)
    expect(curve.budget(1620).map((line) => line.name)).toEqual(['reference'])
  })

  test('a third sample as check: 0.03 passes, 0.05 warns, beyond fails', () => {
    const middle = (thetaOff: number): SoilSample => {
      const theta = 0.6685613 - 0.000222877358 * 2000 - thetaOff
      return {
        signal: 2000,
        wetGram: 121 + theta * 80,
        dryGram: 121,
        tinGram: 25,
        ringCubicCentimetre: 80,
        role: 'check',
      }
    }
    const verdict = (off: number) => fitted({ ...recipe, samples: [wet, dry, middle(off)] }).verdict
    expect([0.029, 0.031, 0.049, 0.051].map(verdict)).toEqual(['pass', 'warn', 'warn', 'fail'])
  })

  test('a parabola through three samples meets each, and is undone inside them', () => {
    const samples = [900, 1500, 2600].map((signal, k): SoilSample => {
      const theta = [0.42, 0.25, 0.08][k]!
      return { signal, wetGram: 121 + theta * 80, dryGram: 121, tinGram: 25, ringCubicCentimetre: 80 }
    })
    const curve = fitted({ ...recipe, samples, degree: 2 })
    for (const [k, sample] of samples.entries()) {
      expect(readAt(curve, sample.signal).value).toBeCloseTo([0.42, 0.25, 0.08][k]!, 9)
    }
    expect(curve.signalAt(readAt(curve, 1234).value)).toBeCloseTo(1234, 6)
    expect(curve.signalAt(-5)).toBeNull()
  })

  test('too few samples, equal samples, and swapped masses are refused', () => {
    expectRefusal(fitCalibration({ ...recipe, samples: [wet] }), 'E_POINTS_FEW')
    expectRefusal(fitCalibration({ ...recipe, samples: [wet, { ...wet, signal: 2000 }] }), 'E_SAME_REFERENCE')
    expectRefusal(fitCalibration({ ...recipe, samples: [wet, { ...dry, signal: 1620 }] }), 'E_POINTS_FEW')
    expectRefusal(fitCalibration({ ...recipe, samples: [wet, dry], degree: 2 }), 'E_POINTS_FEW')
    const swapped = { ...dry, wetGram: dry.dryGram, dryGram: dry.wetGram }
    expect(
      expectRefusal(fitCalibration({ ...recipe, samples: [wet, swapped] }), 'E_MASS_ORDER').message,
    ).toMatch(/^Sample 2/)
  })
})

describe('permittivity to water content', () => {
  test('check points of the Topp polynomial', () => {
    // Topp, Davis & Annan 1980; coefficients verified, points computed to six decimals
    for (const { Ka, theta_v } of soil.topp.check_points) {
      expect(Math.abs(toppWaterContent(Ka) - theta_v)).toBeLessThan(6e-7)
    }
  })

  test('the paper’s inverse comes back close, not exactly', () => {
    for (const { theta_v, Ka, theta_back } of soil.topp.inverse.round_trip) {
      expect(toppPermittivity(theta_v)).toBeCloseTo(Ka, 4)
      expect(toppWaterContent(toppPermittivity(theta_v))).toBeCloseTo(theta_back, 4)
    }
  })

  test('the curve’s own inverse comes back exactly', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 81, noNaN: true }), (permittivity) => {
        expect(solveToppPermittivity(toppWaterContent(permittivity))).toBeCloseTo(permittivity, 6)
      }),
      { seed: 3 },
    )
  })

  test('air is negative and water near one: remarked, not clamped; below 1 refused', () => {
    const curve = fitted({ kind: 'permittivity', porosity: 0.55 })
    expect(readAt(curve, 1).value).toBeCloseTo(-0.0243, 4)
    expect(readAt(curve, 1).remarks).toContain('impossible')
    expect(readAt(curve, 80).remarks).toContain('impossible')
    expect(readAt(curve, 2.9).remarks).toEqual(['extrapolated'])
    expect(readAt(curve, 3).remarks).toEqual([])
    expect(readAt(curve, 40).remarks).toEqual([])
    expect(readAt(curve, 40.1).remarks).toEqual(['extrapolated'])
    expectRefusal(curve.valueAt(0.99), 'E_SIGNAL_RANGE')
    expectRefusal(fitCalibration({ kind: 'permittivity', porosity: 1.2 }), 'E_SETTING')
    expectRefusal(
      fitCalibration({ kind: 'permittivity', fromSignal: { slope: 0, intercept: 3 } }),
      'E_SLOPE_ZERO',
    )
  })

  test('a signal in counts goes through its line first', () => {
    const curve = fitted({
      kind: 'permittivity',
      fromSignal: { slope: 0.02, intercept: 1 },
      signalResolution: 1,
    })
    expect(readAt(curve, 950).value).toBeCloseTo(0.3454, 9)
    expect(curve.signalAt(0.3454)).toBeCloseTo(950, 6)
    expect(curve.budget(950).map((line) => line.name)).toEqual(['reference', 'resolution'])
  })
})
