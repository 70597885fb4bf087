import { fitCalibrationLine } from '../fit/calibration-line.ts'
import type { Advice, Fitted, Verdict } from '../fitted.ts'
import { EXTRAPOLATED, IMPOSSIBLE, makeFitted, NO_REMARKS, worst } from '../make-fitted.ts'
import type { WetnessSpanRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { alikeUnits } from '../units.ts'
import { lineUncertainty } from './line-uncertainty.ts'

/** Beyond the ends by more than this share of the span, the probe is faulty or out of the soil. */
const BEYOND_SPAN = 0.05

/** The ends may move by this share of the span between days. */
const SPAN_CHECK = 0.03

/**
 * Signal of a moisture probe to relative wetness: 0 at the dry end, 1 at the wet one. Not a water content.
 * Counts may fall as the soil gets wetter. Values outside 0–1 are given, not clipped.
 * @returns `extrapolated` outside the two ends, `impossible` more than 5 % of the span beyond them
 */
export function fitWetnessSpan(recipe: WetnessSpanRecipe): Fitted | Refusal {
  const { drySignal, wetSignal } = recipe
  if (drySignal === wetSignal) {
    return refuse(
      'E_SAME_SIGNAL',
      `Dry and wet both read ${drySignal}. Check the probe is connected, then measure both again.`,
    )
  }
  const calibration = fitCalibrationLine([
    { x: 0, y: drySignal, scatter: recipe.dryScatter ?? recipe.wetScatter, n: recipe.n },
    { x: 1, y: wetSignal, scatter: recipe.wetScatter ?? recipe.dryScatter, n: recipe.n },
  ])
  if (isRefusal(calibration)) return calibration
  const span = wetSignal - drySignal
  const uncertainty = lineUncertainty(calibration, recipe)
  return makeFitted({
    kind: 'wetness-span',
    unit: '/',
    signalUnits: recipe.signalUnit === undefined ? [] : alikeUnits(recipe.signalUnit),
    ...judge(recipe, span),
    facts: { drySignal, wetSignal, spanSignal: span },
    signalRange: { low: Math.min(drySignal, wetSignal), high: Math.max(drySignal, wetSignal) },
    residuals: [],
    evaluate(signal) {
      const wetness = (signal - drySignal) / span
      const standard = uncertainty.at(wetness, 1, 0)
      return {
        value: wetness,
        standardUncertainty: Number.isNaN(standard) ? null : standard,
        degreesOfFreedom: uncertainty.lastDegreesOfFreedom(),
        remarks:
          wetness >= 0 && wetness <= 1
            ? NO_REMARKS
            : wetness < -BEYOND_SPAN || wetness > 1 + BEYOND_SPAN
              ? IMPOSSIBLE
              : EXTRAPOLATED,
      }
    },
    budget: (signal) => uncertainty.budget((signal - drySignal) / span, 1),
    invert: (wetness) => drySignal + wetness * span,
  })
}

function judge(recipe: WetnessSpanRecipe, span: number): { verdict: Verdict; advice: Advice[] } {
  const advice: Advice[] = []
  const verdicts: Verdict[] = []
  const scatter = Math.max(recipe.dryScatter ?? 0, recipe.wetScatter ?? 0)
  if (scatter * 10 > Math.abs(span)) {
    verdicts.push('fail')
    advice.push({
      code: 'span-small',
      text: 'Dry and wet differ by less than ten times the scatter of the signal. Check the contact of the probe and measure both ends again.',
    })
  }
  const { earlier } = recipe
  if (earlier !== undefined) {
    const moved = Math.max(
      Math.abs(recipe.drySignal - earlier.drySignal),
      Math.abs(recipe.wetSignal - earlier.wetSignal),
    )
    if (moved > SPAN_CHECK * Math.abs(span)) {
      verdicts.push('warn')
      advice.push({
        code: 'span-moved',
        text: `An end has moved by ${((100 * moved) / Math.abs(span)).toFixed(1)} % of the span since last time. Dry the probe, look for wet electronics or corroded pins, and repeat.`,
      })
    }
  }
  return { verdict: worst(verdicts), advice }
}
