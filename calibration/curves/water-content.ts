import { fitPolynomial, type Polynomial } from '../fit/polynomial.ts'
import type { Advice, Fitted, Verdict } from '../fitted.ts'
import { EXTRAPOLATED, IMPOSSIBLE, makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { SoilSample, WaterContentFitRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { alikeUnits } from '../units.ts'
import { MINERAL_PARTICLE_DENSITY, ORGANIC_PARTICLE_DENSITY, porosity, soilWater } from './gravimetric.ts'
import { solveQuadratic } from './quadratic-root.ts'
import { waterContentBudget, waterContentUncertainty } from './water-content-uncertainty.ts'

/** A sample may lie this far off the curve, m³/m³. */
const RESIDUAL_PASS = 0.03
const RESIDUAL_WARN = 0.05

interface Weighed {
  sample: SoilSample
  theta: number
  bulkDensity: number
}

/**
 * Signal of a moisture probe to volumetric water content, m³/m³, against oven-dried samples of one soil.
 * A straight line, or a parabola with `degree` 2. Values are not clipped.
 * @returns `extrapolated` outside the samples' signals; `impossible` below 0 or above the pore space 1 − ρ_b/2.65
 * @see ISO 11465:1993, ISO 16586:2003; JCGM 100:2008 H.3 for the uncertainty of the fit
 */
export function fitWaterContent(recipe: WaterContentFitRecipe): Fitted | Refusal {
  const weighed = weigh(recipe.samples)
  if (isRefusal(weighed)) return weighed
  const fitted = weighed.filter((each) => each.sample.role !== 'check')
  const degree = recipe.degree ?? 1
  if (fitted.length < degree + 1) {
    return refuse(
      'E_POINTS_FEW',
      `A ${degree === 1 ? 'line' : 'parabola'} needs ${degree + 1} samples; ${fitted.length} given.`,
    )
  }
  const thetas = fitted.map((each) => each.theta)
  if (Math.max(...thetas) === Math.min(...thetas)) {
    return refuse('E_SAME_REFERENCE', 'All samples hold the same water. Pack one wetter and one drier.')
  }
  const curve = fitPolynomial(
    fitted.map((each) => each.sample.signal),
    thetas,
    degree,
  )
  if (isRefusal(curve)) return curve
  return describe(recipe, curve, fitted, weighed)
}

function weigh(samples: readonly SoilSample[]): Weighed[] | Refusal {
  const weighed: Weighed[] = []
  for (const [index, sample] of samples.entries()) {
    const water = soilWater(sample)
    if (isRefusal(water)) return { ...water, message: `Sample ${index + 1}: ${water.message}` }
    weighed.push({ sample, theta: water.volumetricWaterContent, bulkDensity: water.bulkDensity })
  }
  return weighed
}

function describe(
  recipe: WaterContentFitRecipe,
  curve: Polynomial,
  fitted: readonly Weighed[],
  all: readonly Weighed[],
): Fitted {
  const signals = fitted.map((each) => each.sample.signal)
  const [low, high] = [Math.min(...signals), Math.max(...signals)]
  const residuals = all.map((each) => ({
    signal: each.sample.signal,
    reference: each.theta,
    residual: curve.at(each.sample.signal) - each.theta,
  }))
  const grain = recipe.organic === true ? ORGANIC_PARTICLE_DENSITY : MINERAL_PARTICLE_DENSITY
  const pores = Math.max(...all.map((each) => porosity(each.bulkDensity, grain)))
  const known = curve.residualStandardDeviation !== null || recipe.sampleStandardUncertainty !== undefined
  return makeFitted({
    kind: 'water-content-fit',
    unit: 'm3/m3',
    signalUnits: recipe.signalUnit === undefined ? [] : alikeUnits(recipe.signalUnit),
    ...judge(residuals, known),
    facts: {
      soil: recipe.soil,
      sampleCount: fitted.length,
      degree: curve.degree,
      ...coefficientFacts(curve),
      largestResidual: Math.max(...residuals.map((each) => Math.abs(each.residual))),
      bulkDensityGramPerCubicCentimetre: all.reduce((sum, each) => sum + each.bulkDensity, 0) / all.length,
      porosity: pores,
    },
    signalRange: { low, high },
    residuals,
    evaluate(signal) {
      const theta = curve.at(signal)
      const combined = known ? waterContentUncertainty(recipe, curve, signal) : null
      return {
        value: theta,
        standardUncertainty: combined?.standardUncertainty ?? null,
        degreesOfFreedom: combined?.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
        remarks:
          theta < 0 || theta > pores ? IMPOSSIBLE : signal < low || signal > high ? EXTRAPOLATED : NO_REMARKS,
      }
    },
    budget: (signal) => waterContentBudget(recipe, curve, signal),
    invert: (theta) => solveQuadratic(curve.coefficients, theta, low, high),
  })
}

function coefficientFacts(curve: Polynomial): Record<string, number> {
  const [intercept = 0, slope = 0, square = 0] = curve.coefficients
  return { intercept, slope, ...(curve.degree === 2 ? { square } : {}) }
}

function judge(residuals: Fitted['residuals'], known: boolean): { verdict: Verdict; advice: Advice[] } {
  const off = Math.max(...residuals.map((each) => Math.abs(each.residual)))
  const advice: Advice[] = []
  if (off > RESIDUAL_PASS) {
    advice.push({
      code: 'sample-off',
      text: `A sample lies ${off.toFixed(3)} m³/m³ off the curve. Weigh it again, check the ring was full and the probe was pushed in fully.`,
    })
  }
  if (!known) {
    advice.push({
      code: 'uncertainty-unknown',
      text: 'There are only as many samples as the curve needs, so its uncertainty cannot be seen. Dry one more sample.',
    })
  }
  const verdict: Verdict = off <= RESIDUAL_PASS ? 'pass' : off <= RESIDUAL_WARN ? 'warn' : 'fail'
  return { verdict, advice }
}
