import { straightLine, valueFromBoard } from './any-probe.ts'
import { dryWet } from './dry-wet.ts'
import { lightCounts, lightSpan, photoresistor } from './light.ts'
import { oven } from './oven.ts'
import { phBuffers } from './ph-buffers.ts'
import type { Procedure } from './procedure.ts'
import { icePoint, thermistorPoints } from './temperature.ts'
import { cupPairs, cupSheet } from './wind.ts'

/** Every way to calibrate at the bench; the first of a quantity is the usual one. */
export const PROCEDURES: readonly Procedure[] = [
  phBuffers,
  dryWet,
  oven,
  lightCounts,
  photoresistor,
  lightSpan,
  icePoint,
  thermistorPoints,
  cupPairs,
  cupSheet,
  straightLine,
  valueFromBoard,
]

/** The ways a quantity can be calibrated, the usual one first; those for any probe come last. */
export function proceduresFor(quantity: string): readonly Procedure[] {
  return PROCEDURES.filter((procedure) => procedure.quantity === quantity || procedure.quantity === '')
}
