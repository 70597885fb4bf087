import type { Advice, Verdict } from '../fitted.ts'
import { worst } from '../make-fitted.ts'
import type { PhCriteria } from '../recipe.ts'
import { SAME_ANSWER_PERCENT } from './ph-criteria.ts'
import type { ResolvedPhPoint } from './ph-points.ts'
import { suspectBuffers } from './ph-suspect-buffers.ts'

/** What the verdict looks at. */
export interface PhFindings {
  fitPoints: readonly ResolvedPhPoint[]
  /** null when the amplifier's gain is not known */
  slopePercent: number | null
  offsetMillivolt: number
  /** read minus stated pH, for the beakers used in the fit and for those only checked */
  fitErrorsPh: readonly number[]
  checkErrorsPh: readonly number[]
  secondsToStable: readonly number[]
  forced: boolean
  soilPh: { low: number; high: number } | undefined
}

interface Judgement {
  verdict: Verdict
  advice: Advice[]
}

/** Judges a fitted electrode against the criteria and says what to do about each thing found. */
export function judgePhElectrode(findings: PhFindings, criteria: PhCriteria): Judgement {
  const judgements = [
    judgeSlope(findings, criteria),
    judgeOffset(findings, criteria),
    judgeErrors(findings, criteria),
    judgeSteadiness(findings, criteria),
    judgeSpan(findings, criteria),
    suspectBuffers(findings, criteria),
  ]
  return {
    verdict: worst(judgements.map((each) => each.verdict)),
    advice: judgements.flatMap((each) => each.advice),
  }
}

function judgeSlope({ slopePercent }: PhFindings, criteria: PhCriteria): Judgement {
  if (slopePercent === null) {
    return say(
      'warn',
      'gain-unknown',
      'The slope in percent cannot be known, because the gain of the amplifier between electrode and board is not known. ' +
        'Readings can be used; the health of the electrode cannot be judged by its slope.',
    )
  }
  const shown = `${slopePercent.toFixed(1)} %`
  if (Math.abs(slopePercent) < SAME_ANSWER_PERCENT) {
    return say(
      'fail',
      'same-answer',
      `The probe gives nearly the same answer in every buffer (slope ${shown}): the bulb is cracked, or the probe is not connected. ` +
        'Check the plug and cable; if they are sound, replace the electrode.',
    )
  }
  if (slopePercent < 0) {
    return say(
      'fail',
      'buffers-swapped',
      'Were the buffers swapped? The millivolts rise with pH; they should fall. ' +
        'Check which beaker was which and swap the two readings, or check whether the amplifier turns the sign round.',
    )
  }
  if (slopePercent > criteria.slopePassHighPercent) {
    return say(
      slopePercent > criteria.slopeWarnHighPercent ? 'fail' : 'warn',
      'slope-high',
      `The slope is ${shown} of the theory, and no electrode beats the theory. ` +
        'Check the temperature typed, the buffer set on the bottles, and the gain of the amplifier.',
    )
  }
  if (slopePercent >= criteria.slopePassLowPercent) return { verdict: 'pass', advice: [] }
  const failed = slopePercent < criteria.slopeWarnLowPercent
  return say(
    failed ? 'fail' : 'warn',
    'slope-low',
    `The slope is ${shown} of the theory: the bulb is dry, coated or old, or a buffer is stale. ` +
      'Clean the bulb, soak it in storage solution for an hour (overnight is better), take fresh buffer and calibrate again.' +
      (failed ? ' Do not report readings made with this calibration.' : ''),
  )
}

function judgeOffset({ slopePercent, offsetMillivolt }: PhFindings, criteria: PhCriteria): Judgement {
  // with an unknown gain the offset holds the amplifier's bias too; with swapped or equal answers it means nothing
  if (slopePercent === null || slopePercent < SAME_ANSWER_PERCENT) return { verdict: 'pass', advice: [] }
  const size = Math.abs(offsetMillivolt)
  if (size <= criteria.offsetPassMillivolt) return { verdict: 'pass', advice: [] }
  return say(
    size <= criteria.offsetWarnMillivolt ? 'warn' : 'fail',
    'offset-large',
    `At pH 7 the electrode gives ${offsetMillivolt.toFixed(1)} mV; near 0 is expected, and ${criteria.offsetWarnMillivolt} mV is the limit. ` +
      'Clean the junction and soak the electrode in storage solution; if it stays, replace it.',
  )
}

function judgeErrors({ fitErrorsPh, checkErrorsPh }: PhFindings, criteria: PhCriteria): Judgement {
  const check = largest(checkErrorsPh)
  const fit = largest(fitErrorsPh)
  const advice: Advice[] = []
  if (check > criteria.checkPassPh) {
    advice.push({
      code: 'check-standard-off',
      text: `The check buffer reads ${check.toFixed(2)} pH away from its stated value. Take fresh buffer, rinse, and measure it again.`,
    })
  }
  if (fit > criteria.checkPassPh) {
    advice.push({
      code: 'residual-large',
      text: `One buffer lies ${fit.toFixed(2)} pH off the line through all of them. One of the buffers is stale, or was mistaken for another.`,
    })
  }
  const off = Math.max(check, fit)
  const verdict = off <= criteria.checkPassPh ? 'pass' : off <= criteria.checkWarnPh ? 'warn' : 'fail'
  return { verdict, advice }
}

function judgeSteadiness({ secondsToStable, forced }: PhFindings, criteria: PhCriteria): Judgement {
  const slowest = largest(secondsToStable)
  const advice: Advice[] = []
  if (forced) {
    advice.push({
      code: 'not-steady',
      text: 'A buffer reading was kept before it had become steady. Leave the bulb in the buffer longer and take it again.',
    })
  }
  if (slowest > criteria.stablePassSeconds) {
    advice.push({
      code: 'slow',
      text: `The probe took ${Math.round(slowest)} s to become steady. A slow bulb is dry, coated or cold: soak and clean it.`,
    })
  }
  const slow =
    slowest <= criteria.stablePassSeconds ? 'pass' : slowest <= criteria.stableWarnSeconds ? 'warn' : 'fail'
  return { verdict: worst([slow, forced ? 'warn' : 'pass']), advice }
}

function judgeSpan({ fitPoints, soilPh }: PhFindings, criteria: PhCriteria): Judgement {
  const phs = fitPoints.map((point) => point.ph)
  const low = Math.min(...phs)
  const high = Math.max(...phs)
  const advice: Advice[] = []
  const verdicts: Verdict[] = []
  // printed values of two bottles 2 pH apart may miss 2 by a few hundredths at their temperature
  if (high - low < criteria.bufferSpanPassPh - 0.05) {
    verdicts.push('warn')
    advice.push({
      code: 'buffers-close',
      text: `The buffers are only ${(high - low).toFixed(2)} pH apart. Choose two at least ${criteria.bufferSpanPassPh} pH apart, on both sides of the soil.`,
    })
  }
  const outside = soilPh === undefined ? 0 : Math.max(low - soilPh.low, soilPh.high - high)
  if (outside > 0) {
    verdicts.push(outside <= criteria.soilOutsideWarnPh ? 'warn' : 'fail')
    advice.push({
      code: 'soil-not-bracketed',
      text: `The soil is expected up to ${outside.toFixed(2)} pH outside the buffers. Add a buffer on its far side.`,
    })
  }
  return { verdict: worst(verdicts), advice }
}

function say(verdict: Verdict, code: string, text: string): Judgement {
  return { verdict, advice: [{ code, text }] }
}

function largest(numbers: readonly number[]): number {
  return numbers.reduce((most, each) => Math.max(most, Math.abs(each)), 0)
}
