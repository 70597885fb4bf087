import { accuracyRating } from './accuracy-rating.ts'
import { boardClock } from './board-clock.ts'
import { bufferPhComputation } from './buffer-ph.ts'
import type { Computation } from './computation.ts'
import { cupFit } from './cup-fit.ts'
import { cupWind } from './cup-wind.ts'
import { digitalTemperature } from './digital-temperature.ts'
import { drift } from './drift.ts'
import { expandedUncertaintyComputation } from './expanded-uncertainty.ts'
import { gravimetricMoisture } from './gravimetric-moisture.ts'
import { icePoint } from './ice-point.ts'
import { illuminanceFromCounts } from './illuminance-from-counts.ts'
import { lightFit } from './light-fit.ts'
import { lineFit } from './line-fit.ts'
import { logProfile } from './log-profile.ts'
import { moisturePermittivity } from './moisture-permittivity.ts'
import { nernstSlopeComputation } from './nernst-slope.ts'
import { originLineFit } from './origin-line-fit.ts'
import { permittivityMoisture } from './permittivity-moisture.ts'
import { phFromSignal } from './ph-from-signal.ts'
import { phTwoPoint } from './ph-two-point.ts'
import { platinum } from './platinum.ts'
import { platinumResistance } from './platinum-resistance.ts'
import { ppfdEstimate } from './ppfd-estimate.ts'
import { relativeLightComputation } from './relative-light.ts'
import { relativeLightBracket } from './relative-light-bracket.ts'
import { relativeWetness } from './relative-wetness.ts'
import { describeFrom, runFrom } from './run-computation.ts'
import { senmlResolve } from './senml-resolve.ts'
import { sideBySide } from './side-by-side.ts'
import { steadiness } from './steadiness.ts'
import { studentT } from './student-t.ts'
import { thermistor } from './thermistor.ts'
import { thermistorBeta } from './thermistor-beta.ts'
import { thermistorFit } from './thermistor-fit.ts'
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
  cupFit,
  cupWind,
  digitalTemperature,
  drift,
  expandedUncertaintyComputation,
  gravimetricMoisture,
  icePoint,
  illuminanceFromCounts,
  lightFit,
  lineFit,
  logProfile,
  moisturePermittivity,
  nernstSlopeComputation,
  originLineFit,
  permittivityMoisture,
  phFromSignal,
  phTwoPoint,
  platinumResistance,
  platinum,
  ppfdEstimate,
  relativeLightBracket,
  relativeLightComputation,
  relativeWetness,
  senmlResolve,
  sideBySide,
  steadiness,
  studentT,
  thermistorBeta,
  thermistorFit,
  thermistor,
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
