import type { Advice, Fitted, Remark, Verdict } from '../fitted.ts'
import { makeFitted, NO_REMARKS, worst } from '../make-fitted.ts'
import type { LightCountsRecipe } from '../recipe.ts'
import { BH1750 } from '../references/light-sensors.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fromHalfWidth, fromStep } from '../uncertainty/rectangular.ts'
import { statedTerms } from '../uncertainty/stated-terms.ts'
import { bh1750LuxPerCount, refuseCounts, tsl2561Formula } from './illuminance.ts'

const SATURATED: readonly Remark[] = Object.freeze(['saturated'] as const)

/** A covered sensor reads no more than this, lx. */
const DARK_PASS_LUX = 5

/** A side-by-side factor in this band says the sensor is as published. */
const FACTOR_LOW = 0.9
const FACTOR_HIGH = 1.1

/**
 * Counts of a digital light sensor to illuminance, lx, by its published formula and a side-by-side factor.
 * At full scale the value is only a lower bound and carries the remark `saturated`.
 * @returns without a factor, uncertainty from the published 0.96–1.44 counts per lx (bh1750), unknown for tsl2561
 * @see BH1750FVI technical note 2009.04 Rev. B; TSL2560/TSL2561 data sheet TAOS059K, April 2007, page 22
 */
export function fitLightCounts(recipe: LightCountsRecipe): Fitted | Refusal {
  const factor = recipe.factor ?? 1
  if (!(factor > 0)) return refuse('E_SETTING', `The side-by-side factor is ${factor}; it must be above 0.`)
  if (recipe.sensor !== 'bh1750' && recipe.sensor !== 'tsl2561') {
    return refuse('E_SETTING', `No formula for a sensor “${recipe.sensor}”; known are bh1750 and tsl2561.`)
  }
  return recipe.sensor === 'bh1750' ? fitBh1750(recipe, factor) : fitTsl2561(recipe, factor)
}

function fitBh1750(recipe: LightCountsRecipe, factor: number): Fitted | Refusal {
  const plain = bh1750LuxPerCount(recipe.mtreg, recipe.mode)
  if (isRefusal(plain)) return plain
  const luxPerCount = plain * factor
  const relative = relativeUncertainty(recipe)
  const step = fromStep(luxPerCount)
  const drift = recipe.driftStandardUncertainty ?? 0
  return makeFitted({
    ...common(recipe, factor),
    facts: { luxPerCount, factor, fullScaleLux: BH1750.fullScaleCounts * luxPerCount },
    evaluate(counts) {
      const bad = refuseCounts(counts)
      if (bad !== null) return bad
      const value = counts * luxPerCount
      return {
        value,
        standardUncertainty:
          relative === null ? null : Math.sqrt((relative * value) ** 2 + step * step + drift * drift),
        degreesOfFreedom: Number.POSITIVE_INFINITY,
        remarks: counts >= BH1750.fullScaleCounts ? SATURATED : NO_REMARKS,
      }
    },
    budget: (counts) =>
      statedTerms({ reference: (relative ?? 0) * counts * luxPerCount, resolution: step, drift }),
    invert: (lux) => lux / luxPerCount,
  })
}

function fitTsl2561(recipe: LightCountsRecipe, factor: number): Fitted | Refusal {
  const formula = tsl2561Formula(recipe.package, recipe.gain, recipe.integration)
  if (isRefusal(formula)) return formula
  const relative = recipe.factor === undefined ? null : (recipe.factorRelativeStandardUncertainty ?? null)
  const drift = recipe.driftStandardUncertainty ?? 0
  return makeFitted({
    ...common(recipe, factor),
    facts: { factor, fullScaleCounts: formula.fullScaleCounts, package: recipe.package ?? 'T' },
    evaluate(counts, conditions) {
      const infrared = conditions?.infraredCounts
      if (infrared === undefined) {
        return refuse(
          'E_SECOND_CHANNEL',
          'This sensor needs both channels: send the infrared counts with the visible ones.',
        )
      }
      const bad = refuseCounts(counts) ?? refuseCounts(infrared)
      if (bad !== null) return bad
      const value = formula.luxAt(counts, infrared) * factor
      return {
        value,
        standardUncertainty: relative === null ? null : Math.sqrt((relative * value) ** 2 + drift * drift),
        degreesOfFreedom: Number.POSITIVE_INFINITY,
        remarks: formula.isSaturated(counts, infrared) ? SATURATED : NO_REMARKS,
      }
    },
    budget: (counts, conditions) =>
      statedTerms({
        reference: (relative ?? 0) * formula.luxAt(counts, conditions?.infraredCounts ?? 0) * factor,
        drift,
      }),
    invert: () => null,
  })
}

/** Relative standard uncertainty: of the factor where there is one, else of the published counts per lux. */
function relativeUncertainty(recipe: LightCountsRecipe): number | null {
  if (recipe.factor !== undefined) return recipe.factorRelativeStandardUncertainty ?? null
  const halfWidth = (BH1750.countsPerLuxHigh - BH1750.countsPerLuxLow) / 2
  return fromHalfWidth(halfWidth) / BH1750.countsPerLuxTypical
}

function common(recipe: LightCountsRecipe, factor: number) {
  return {
    kind: 'light-counts' as const,
    unit: 'lx',
    signalUnits: ['count'],
    signalRange: null,
    residuals: [],
    ...judge(recipe, factor),
  }
}

function judge(recipe: LightCountsRecipe, factor: number): { verdict: Verdict; advice: Advice[] } {
  const advice: Advice[] = []
  const verdicts: Verdict[] = []
  if (factor < FACTOR_LOW || factor > FACTOR_HIGH) {
    verdicts.push('warn')
    advice.push({
      code: 'factor-applied',
      text: `Beside the reference the sensor needs a factor of ${factor.toFixed(3)}, more than 10 % from 1. It is applied; check that the dome is clean and both were level.`,
    })
  }
  if (recipe.darkLux !== undefined && Math.abs(recipe.darkLux) > DARK_PASS_LUX) {
    verdicts.push('fail')
    advice.push({
      code: 'dark-not-dark',
      text: `Covered, the sensor still reads ${recipe.darkLux} lx; up to ${DARK_PASS_LUX} is allowed. Cover it fully and repeat; if it stays, replace the sensor.`,
    })
  }
  return { verdict: worst(verdicts), advice }
}
