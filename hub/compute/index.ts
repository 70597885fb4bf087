import { accuracyRating } from './accuracy-rating.ts'
import { boardClock } from './board-clock.ts'
import { bufferPhComputation } from './buffer-ph.ts'
import { circularMean } from './circular-mean.ts'
import type { Computation } from './computation.ts'
import { cupFit } from './cup-fit.ts'
import { cupWind } from './cup-wind.ts'
import { describe } from './describe.ts'
import { digitalTemperature } from './digital-temperature.ts'
import { diversity } from './diversity.ts'
import { drift } from './drift.ts'
import { expandedUncertaintyComputation } from './expanded-uncertainty.ts'
import { frequencyComputation } from './frequency.ts'
import { gravimetricMoisture } from './gravimetric-moisture.ts'
import { holmComputation } from './holm.ts'
import { icePoint } from './ice-point.ts'
import { illuminanceFromCounts } from './illuminance-from-counts.ts'
import { kruskalWallisComputation } from './kruskal-wallis.ts'
import { lightFit } from './light-fit.ts'
import { lineFit } from './line-fit.ts'
import { logProfile } from './log-profile.ts'
import { mannWhitneyComputation } from './mann-whitney.ts'
import { meanUncertaintyComputation } from './mean-uncertainty.ts'
import { moisturePermittivity } from './moisture-permittivity.ts'
import { nernstSlopeComputation } from './nernst-slope.ts'
import { originLineFit } from './origin-line-fit.ts'
import { pca } from './pca.ts'
import { pearsonComputation } from './pearson.ts'
import { permittivityMoisture } from './permittivity-moisture.ts'
import { phFromSignal } from './ph-from-signal.ts'
import { phTwoPoint } from './ph-two-point.ts'
import { planDraw } from './plan-draw.ts'
import { platinum } from './platinum.ts'
import { platinumResistance } from './platinum-resistance.ts'
import { ppfdEstimate } from './ppfd-estimate.ts'
import { redrawRobustnessComputation } from './redraw-robustness.ts'
import { relativeLightComputation } from './relative-light.ts'
import { relativeLightBracket } from './relative-light-bracket.ts'
import { relativeWetness } from './relative-wetness.ts'
import { describeFrom, runFrom } from './run-computation.ts'
import { runningMeanComputation } from './running-mean.ts'
import { sampleSizeComputation } from './sample-size.ts'
import { senmlResolve } from './senml-resolve.ts'
import { sideBySide } from './side-by-side.ts'
import { spearmanComputation } from './spearman.ts'
import { steadiness } from './steadiness.ts'
import { studentInterval } from './student-interval.ts'
import { studentT } from './student-t.ts'
import { thermistor } from './thermistor.ts'
import { thermistorBeta } from './thermistor-beta.ts'
import { thermistorFit } from './thermistor-fit.ts'
import { twoSpeciesComputation } from './two-species.ts'
import { walkOrder } from './walk-order.ts'
import { waterContentFit } from './water-content-fit.ts'
import { windForceComputation } from './wind-force.ts'
import { windHeight } from './wind-height.ts'
import { windSpeeds } from './wind-speeds.ts'
import { windSummary } from './wind-summary.ts'

export type { Computation } from './computation.ts'

/** Every pure computation the command line offers, by name. */
export const COMPUTATIONS: readonly Computation[] = [
  accuracyRating,
  boardClock,
  bufferPhComputation,
  circularMean,
  cupFit,
  cupWind,
  describe,
  digitalTemperature,
  diversity,
  drift,
  expandedUncertaintyComputation,
  frequencyComputation,
  gravimetricMoisture,
  holmComputation,
  icePoint,
  illuminanceFromCounts,
  kruskalWallisComputation,
  lightFit,
  lineFit,
  logProfile,
  mannWhitneyComputation,
  meanUncertaintyComputation,
  moisturePermittivity,
  nernstSlopeComputation,
  originLineFit,
  pca,
  pearsonComputation,
  permittivityMoisture,
  phFromSignal,
  phTwoPoint,
  planDraw,
  platinum,
  platinumResistance,
  ppfdEstimate,
  redrawRobustnessComputation,
  relativeLightBracket,
  relativeLightComputation,
  relativeWetness,
  runningMeanComputation,
  sampleSizeComputation,
  senmlResolve,
  sideBySide,
  spearmanComputation,
  steadiness,
  studentInterval,
  studentT,
  thermistor,
  thermistorBeta,
  thermistorFit,
  twoSpeciesComputation,
  walkOrder,
  waterContentFit,
  windForceComputation,
  windHeight,
  windSpeeds,
  windSummary,
]

/** Runs the computation of this name on parsed JSON: its output, or a refusal. */
export function runComputation(name: string, json: unknown): unknown {
  return runFrom(COMPUTATIONS, name, json)
}

/** Name, title, source, units and JSON schemas of every computation. */
export function describeComputations() {
  return describeFrom(COMPUTATIONS)
}
