import { type Refusal, refuse } from '../refusal.ts'
import { FAULT_CELSIUS } from './temperature-word.ts'

export interface IcePoint {
  /** add this to every reading */
  offsetCelsius: number
  /** sample standard deviation of the readings in ice */
  scatterCelsius: number
}

/** Further from 0 °C than this is not an ice bath. */
const FURTHEST_CELSIUS = 5

/**
 * Readings in melting ice to the offset that brings their mean to 0 °C.
 * @param readings  °C, one or more, none of them a fault code
 * @see ITS-90: air-saturated ice at 101 325 Pa melts at 0.000 to −0.0025 °C
 * @example 0.62 0.60 0.63 0.61 give −0.615 °C
 */
export function fitIcePoint(readings: readonly number[]): IcePoint | Refusal {
  if (readings.length === 0) return refuse('E_POINTS_FEW', 'No reading in ice was given; take at least five.')
  const odd = readings.find((reading) => reading === FAULT_CELSIUS || Math.abs(reading) > FURTHEST_CELSIUS)
  if (odd !== undefined) {
    return refuse(
      'E_SIGNAL_RANGE',
      `${odd} °C is not a reading of melting ice; check the plug and take it again.`,
    )
  }
  const mean = readings.reduce((sum, each) => sum + each, 0) / readings.length
  const squares = readings.reduce((sum, each) => sum + (each - mean) ** 2, 0)
  return {
    offsetCelsius: mean === 0 ? 0 : -mean,
    scatterCelsius: readings.length > 1 ? Math.sqrt(squares / (readings.length - 1)) : 0,
  }
}
