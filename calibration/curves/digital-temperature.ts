import type { Advice, BudgetLine, Fitted, Remark, Value, Verdict } from '../fitted.ts'
import { makeFitted, NO_REMARKS, worst } from '../make-fitted.ts'
import type { DigitalTemperatureRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { combine } from '../uncertainty/combine.ts'
import { fromHalfWidth, fromStep } from '../uncertainty/rectangular.ts'
import { statedTerms } from '../uncertainty/stated-terms.ts'
import { fitIcePoint, type IcePoint } from './ice-point.ts'
import { FAULT_CELSIUS, STEP_CELSIUS, wordToCelsius } from './temperature-word.ts'

/** Measuring range of the 1-Wire thermometer, °C (DS18B20 data sheet). */
const LOWEST_CELSIUS = -55
const HIGHEST_CELSIUS = 125

/** Published tolerance as bought between −10 and 85 °C, ± °C (DS18B20 data sheet); wider outside. */
const TOLERANCE_CELSIUS = 0.5

/** A second point may differ by this after the ice-point offset, °C. */
const SECOND_POINT_PASS_CELSIUS = 0.3

const FAULT: readonly Remark[] = Object.freeze(['fault-code'] as const)
const OUTSIDE: readonly Remark[] = Object.freeze(['impossible'] as const)

/**
 * Digital thermometer, in °C or in sixteenths, to °C with an ice-point offset.
 * @param recipe  `icePoint` readings win over `offsetCelsius`; offset = −mean of the readings in melting ice
 * @returns −127 keeps its number with remark `fault-code`; outside −55…125 °C remark `impossible`
 * @see DS18B20 data sheet; JCGM 100:2008 §4.2 for the scatter in ice, §4.3.7 for the tolerance
 */
export function fitDigitalTemperature(recipe: DigitalTemperatureRecipe): Fitted | Refusal {
  const ice = recipe.icePoint === undefined ? null : fitIcePoint(recipe.icePoint)
  if (isRefusal(ice)) return ice
  const sixteenths = recipe.signalIs === 'sixteenths'
  const offset = ice?.offsetCelsius ?? recipe.offsetCelsius ?? 0
  const lines = budgetOf(recipe, ice)
  const { standardUncertainty, degreesOfFreedom } = combine(lines)
  const second = recipe.secondPoint
  const residual = second === undefined ? null : second.reading + offset - second.reference
  const fault: Value = {
    value: FAULT_CELSIUS,
    standardUncertainty: null,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    remarks: FAULT,
  }
  return makeFitted({
    kind: 'digital-temperature',
    unit: 'Cel',
    signalUnits: sixteenths ? ['count'] : ['Cel'],
    ...judge(offset, residual),
    facts: {
      offsetCelsius: offset,
      iceReadingCount: recipe.icePoint?.length ?? 0,
      iceScatterCelsius: ice?.scatterCelsius ?? null,
      secondPointResidualCelsius: residual,
    },
    signalRange: null,
    residuals:
      second === undefined || residual === null
        ? []
        : [{ signal: second.reading, reference: second.reference, residual }],
    evaluate(signal) {
      if (sixteenths && (!Number.isInteger(signal) || signal < -0x8000 || signal > 0xffff)) {
        return refuse('E_SIGNAL_RANGE', `${signal} is not a 16-bit word; the sensor sends whole numbers.`)
      }
      const celsius = sixteenths ? wordToCelsius(signal) : signal
      if (celsius === FAULT_CELSIUS) return { ...fault }
      const outside = celsius < LOWEST_CELSIUS || celsius > HIGHEST_CELSIUS
      return {
        value: celsius + offset,
        standardUncertainty,
        degreesOfFreedom,
        remarks: outside ? OUTSIDE : NO_REMARKS,
      }
    },
    budget: () => lines,
    invert(value) {
      const celsius = value - offset
      return sixteenths ? Math.round(celsius / STEP_CELSIUS) : celsius
    },
  })
}

function budgetOf(recipe: DigitalTemperatureRecipe, ice: IcePoint | null): BudgetLine[] {
  const step = recipe.signalIs === 'sixteenths' ? STEP_CELSIUS : (recipe.signalResolution ?? STEP_CELSIUS)
  const bath = recipe.icePointStandardUncertaintyCelsius ?? ICE_BATH_STANDARD_UNCERTAINTY_CELSIUS
  const bought = fromHalfWidth(recipe.toleranceCelsius ?? TOLERANCE_CELSIUS)
  const lines = statedTerms({
    reference: ice === null ? bought : bath,
    resolution: fromStep(step),
    drift: recipe.driftStandardUncertainty,
  })
  if (ice === null || ice.scatterCelsius === 0) return lines
  // the mean of n and one further reading share one estimate of scatter: s²(1 + 1/n) on n − 1
  const n = recipe.icePoint?.length ?? 1
  const standardUncertainty = ice.scatterCelsius * Math.sqrt(1 + 1 / n)
  return [...lines, { name: 'repeatability', standardUncertainty, degreesOfFreedom: n - 1 }]
}

/** A stirred class ice bath is within ±0.1 °C of the melting point, taken as rectangular. */
const ICE_BATH_STANDARD_UNCERTAINTY_CELSIUS = fromHalfWidth(0.1)

function judge(offset: number, residual: number | null): { verdict: Verdict; advice: Advice[] } {
  const advice: Advice[] = []
  const verdicts: Verdict[] = []
  const size = Math.abs(offset)
  if (size > 0.5) {
    verdicts.push(size > 1 ? 'fail' : 'warn')
    advice.push({
      code: 'offset-large',
      text:
        `The thermometer is ${size.toFixed(2)} °C off. ` +
        (size > 1
          ? 'More than 1 °C is too much to correct: replace it.'
          : 'Stir the ice, wait three minutes and repeat; if it stays, use the offset and watch it.'),
    })
  }
  if (residual !== null && Math.abs(residual) > SECOND_POINT_PASS_CELSIUS) {
    verdicts.push('warn')
    advice.push({
      code: 'second-point-off',
      text: `At the second point it is still ${residual.toFixed(2)} °C away from the class thermometer after the offset. Wait until both are steady and repeat.`,
    })
  }
  return { verdict: worst(verdicts), advice }
}
