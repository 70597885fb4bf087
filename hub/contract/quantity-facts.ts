export interface QuantityFacts {
  name: string
  label: string
  unit: string
  /** digits after the decimal point that a reader can trust on a screen */
  digits: number
  /** the sensor could not have read outside this: flag 4. Source: the trade's common practice, see DEVELOPERS.md */
  failSpan: readonly [number, number]
  /** unlikely in the field: flag 3 */
  suspectSpan: readonly [number, number]
  /** how long a calibration is trusted, days, before a reminder. Common practice, no source; each probe may have its own */
  calibrationIntervalDays: number
}

/** For quantities of the class's own. */
export const ANY_CALIBRATION_INTERVAL_DAYS = 365

/**
 * Defaults per quantity. Spans are common practice in teaching and field ecology (no published source);
 * a value equal to a limit passes, as in the QARTOD gross range test.
 */
export const knownQuantities: readonly QuantityFacts[] = [
  {
    name: 'soil_ph',
    label: 'Soil pH',
    unit: 'pH',
    digits: 2,
    failSpan: [0, 14],
    suspectSpan: [3, 9.5],
    calibrationIntervalDays: 1,
  },
  {
    name: 'soil_moisture',
    label: 'Soil moisture',
    unit: '/',
    digits: 3,
    failSpan: [-0.05, 1.05],
    suspectSpan: [0, 1],
    calibrationIntervalDays: 180,
  },
  {
    name: 'illuminance',
    label: 'Light',
    unit: 'lx',
    digits: 0,
    failSpan: [0, 200_000],
    suspectSpan: [0, 130_000],
    calibrationIntervalDays: 180,
  },
  {
    name: 'soil_temperature',
    label: 'Soil temperature',
    unit: 'Cel',
    digits: 2,
    failSpan: [-20, 60],
    suspectSpan: [-5, 40],
    calibrationIntervalDays: 365,
  },
  {
    name: 'wind_speed',
    label: 'Wind speed',
    unit: 'm/s',
    digits: 2,
    failSpan: [0, 40],
    suspectSpan: [0, 20],
    calibrationIntervalDays: 365,
  },
]

export function quantityFacts(name: string): QuantityFacts | undefined {
  return knownQuantities.find((quantity) => quantity.name === name)
}
