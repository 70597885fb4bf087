/** Every refusal this house can give: its code and what it means. Messages are written where they happen. */
export const REFUSALS = {
  E_RECIPE: 'the recipe is of no known kind, or misses what its kind needs',
  E_NOT_FINITE: 'a number is missing, not a number, or infinite',
  E_SETTING: 'a setting is outside what the sensor or the formula allows',
  E_POINTS_FEW: 'too few reference points for the curve',
  E_SAME_REFERENCE: 'the reference points do not differ, so no curve can be drawn through them',
  E_SAME_SIGNAL: 'the signals of the reference points do not differ',
  E_BUFFER_UNKNOWN: 'no such buffer set, or no such buffer in the set',
  E_TEMPERATURE_RANGE: 'the temperature is outside the published table or formula',
  E_SIGNAL_UNIT: 'the unit of the signal does not fit the calibration',
  E_SIGNAL_RANGE: 'the signal is outside what the formula can turn into a value',
  E_SECOND_CHANNEL: 'the sensor needs its second channel and it was not given',
  E_COUNT: 'a count of pulses or light counts is negative, not whole, or more than the counter holds',
  E_INTERVAL: 'an interval of time is zero, negative or in the wrong order',
  E_MASS_ORDER: 'the masses of a soil sample are not in the order wet, dry, tin',
  E_REFERENCE_SATURATED: 'the reference meter was at full scale',
  E_REFERENCE_STALE: 'no reference reading is near enough in time',
  E_REFERENCE_UNSTEADY: 'the reference changed too much around the reading',
  E_HEIGHT: 'the height is outside the range of the wind profile',
  E_SLOPE_ZERO: 'the signal does not change with the quantity, so it cannot be turned into a value',
} as const

export type RefusalCode = keyof typeof REFUSALS

/** A broken promise of the program itself, such as a probability outside 0–1 asked for by code; thrown. */
export class CalibrationError extends Error {
  readonly code: string
  constructor(code: string, message: string) {
    super(`${code}: ${message}`)
    this.name = 'CalibrationError'
    this.code = code
  }
}
