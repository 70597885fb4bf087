import type { PhElectrodeRecipe, PhPoint } from '../recipe.ts'
import { bufferPh } from '../references/buffer-ph.ts'
import { CLASS_BUFFER_STANDARD_UNCERTAINTY } from '../references/ph-buffers.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { ISOPOTENTIAL_PH, nernstSlope } from './nernst.ts'

/** A beaker with its pH looked up and the amplifier undone. */
export interface ResolvedPhPoint {
  given: PhPoint
  ph: number
  phStandardUncertainty: number
  /** at the electrode, or as the channel sends it when the gain is not known */
  electrodeMillivolt: number
  /** what an ideal electrode would give against pH 7 at this temperature, mV: the x of the fit */
  idealMillivolt: number
}

/** Takes the pH of every beaker: typed from the bottle, or from the published table at the measured temperature. */
export function resolvePhPoints(recipe: PhElectrodeRecipe): ResolvedPhPoint[] | Refusal {
  const gain = recipe.amplifier?.gain ?? 1
  if (gain === 0) return refuse('E_SETTING', 'The amplifier gain is 0; type the gain of its circuit.')
  const bias = recipe.amplifier?.biasMillivolt ?? 0
  const resolved: ResolvedPhPoint[] = []
  for (const [index, given] of recipe.points.entries()) {
    if (given.temperatureCelsius < -5 || given.temperatureCelsius > 100) {
      return refuse(
        'E_TEMPERATURE_RANGE',
        `Point ${index + 1} states ${given.temperatureCelsius} °C; a buffer is liquid water, so measure it again.`,
      )
    }
    const buffer = takePh(given, index)
    if (isRefusal(buffer)) return buffer
    resolved.push({
      given,
      ph: buffer.ph,
      phStandardUncertainty: given.standardUncertaintyPh ?? buffer.standardUncertaintyPh,
      electrodeMillivolt: (given.millivolt - bias) / gain,
      idealMillivolt: -nernstSlope(given.temperatureCelsius) * (buffer.ph - ISOPOTENTIAL_PH),
    })
  }
  return resolved
}

function takePh(point: PhPoint, index: number): { ph: number; standardUncertaintyPh: number } | Refusal {
  if (point.ph !== undefined) {
    if (point.ph < 0 || point.ph > 14) {
      return refuse('E_SETTING', `Point ${index + 1} states pH ${point.ph}; a buffer lies between 0 and 14.`)
    }
    return { ph: point.ph, standardUncertaintyPh: CLASS_BUFFER_STANDARD_UNCERTAINTY }
  }
  if (point.bufferSet === undefined || point.buffer === undefined) {
    return refuse(
      'E_RECIPE',
      `Point ${index + 1} names no buffer: give its set and name, or the pH on the bottle.`,
    )
  }
  return bufferPh(point.bufferSet, point.buffer, point.temperatureCelsius)
}
