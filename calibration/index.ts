/** Signal ⇄ value, with uncertainty. Pure functions; the only door to this house. */
export { type AccuracyRating, rateAccuracy } from './accuracy-rating.ts'
export { type BoardClock, fitBoardClock, type SyncPoint } from './board-clock.ts'
export { CHECK_CRITERIA, type CheckCriteria, type CheckResult, judgeCheck } from './check-standard.ts'
export { type CupFactor, windFromHertz, windFromPulses } from './curves/cup-wind.ts'
export { porosity, type SoilWater, soilWater } from './curves/gravimetric.ts'
export { fitIcePoint, type IcePoint } from './curves/ice-point.ts'
export { bh1750LuxPerCount, refuseCounts, type Tsl2561Formula, tsl2561Formula } from './curves/illuminance.ts'
export { nernstSlope, phFromMillivolt } from './curves/nernst.ts'
export { DEFAULT_PH_CRITERIA } from './curves/ph-criteria.ts'
export { platinumCelsius, platinumOhm, platinumTolerance } from './curves/platinum-law.ts'
export { estimatePpfd, type PpfdEstimate } from './curves/ppfd.ts'
export {
  type OpenSkyReading,
  type RelativeLight,
  type RelativeLightQuestion,
  type RelativeLightRemark,
  relativeLight,
  relativeLightByBracket,
} from './curves/relative-light.ts'
export { type SideBySide, sideBySideFactor } from './curves/side-by-side.ts'
export { celsiusFromWord } from './curves/temperature-word.ts'
export {
  type Beta,
  betaCelsius,
  betaOhm,
  fitSteinhartHart,
  type SteinhartHart,
  steinhartHartCelsius,
  steinhartHartOhm,
} from './curves/thermistor-law.ts'
export { solveToppPermittivity, toppPermittivity, toppWaterContent } from './curves/topp.ts'
export { findBounce } from './curves/wind-bounce.ts'
export { windForce } from './curves/wind-force.ts'
export { type LogProfile, windAtTwoMetres, windByLogProfile } from './curves/wind-height.ts'
export { GUST_SECONDS, summariseSpeeds, summariseWind, type WindSummary } from './curves/wind-summary.ts'
export { correctDrift, type DriftAnswer, type DriftCheck, type DriftQuestion } from './drift.ts'
export { CalibrationError, REFUSALS, type RefusalCode } from './errors.ts'
export { fitLine, fitLineThroughOrigin, type Line } from './fit/line.ts'
export { fitCalibration } from './fit-calibration.ts'
export type {
  Advice,
  BudgetLine,
  BudgetName,
  Conditions,
  Fitted,
  Remark,
  Residual,
  Value,
  Verdict,
} from './fitted.ts'
export { PROCEDURES, proceduresFor } from './procedures/list.ts'
export type { Captured, Field, Fields, Procedure } from './procedures/procedure.ts'
export type * from './recipe.ts'
export { WIND_FORCES, type WindForce } from './references/beaufort.ts'
export { type BufferPh, bufferPh } from './references/buffer-ph.ts'
export { type LightSource, LUX_PER_PPFD } from './references/lux-per-ppfd.ts'
export { BUFFER_SETS, type Buffer, type BufferSet } from './references/ph-buffers.ts'
export { isRefusal, type Refusal, refuse } from './refusal.ts'
export {
  firstSteady,
  type HeldSample,
  isSteady,
  judgeSteadiness,
  STEADY_RULES,
  type Steadiness,
  type SteadyRule,
} from './steadiness.ts'
export { combine } from './uncertainty/combine.ts'
export { coverageFactor, expandedUncertainty } from './uncertainty/expanded.ts'
export { normalCdf, normalQuantile } from './uncertainty/normal.ts'
export { fromHalfWidth, fromStep } from './uncertainty/rectangular.ts'
export { studentTCdf, studentTQuantile } from './uncertainty/student-t.ts'
