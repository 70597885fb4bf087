import type { Conditions, Fields, Fitted } from '../../../calibration/index.ts'

/** The unit of the signal and, where one was measured, the temperature it was read at. */
export function conditionsOf(
  { signalUnits }: Pick<Fitted, 'signalUnits'>,
  fields: Fields,
  signalUnit: string,
): Conditions {
  const celsius = Number(String(fields['temperatureCelsius'] ?? '').replace(',', '.'))
  const isTyped = fields['temperatureCelsius'] !== undefined && Number.isFinite(celsius)
  return {
    ...(signalUnit === '' || signalUnits.length === 0 ? {} : { signalUnit }),
    ...(isTyped ? { temperatureCelsius: celsius } : {}),
  }
}
