import type { PhCriteria } from '../recipe.ts'

/**
 * Limits of the verdict on a pH electrode, each editable.
 * Practice gives 85–105 % as the outer and 95–102 % as the good band of slope, ±30 mV for the offset at pH 7.
 */
export const DEFAULT_PH_CRITERIA: PhCriteria = {
  slopePassLowPercent: 95,
  slopePassHighPercent: 102,
  slopeWarnLowPercent: 90,
  slopeWarnHighPercent: 105,
  offsetPassMillivolt: 15,
  offsetWarnMillivolt: 30,
  checkPassPh: 0.05,
  checkWarnPh: 0.1,
  stablePassSeconds: 60,
  stableWarnSeconds: 180,
  bufferSpanPassPh: 2,
  soilOutsideWarnPh: 0.5,
}

/** Below this share of the theoretical slope the electrode gives nearly the same answer in every buffer. */
export const SAME_ANSWER_PERCENT = 15

/** Buffers nearer than this are one buffer for the purpose of a slope. */
export const SAME_BUFFER_PH = 0.3
