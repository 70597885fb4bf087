/** The lengths of time a quadrat's charts can show. */
export const spans = [
  { name: '10 min', ms: 600_000 },
  { name: '1 h', ms: 3_600_000 },
  { name: '6 h', ms: 21_600_000 },
  { name: 'all', ms: null },
] as const

export type Span = (typeof spans)[number]

/** The narrowest a chart's value axis gets, in the unit shown: finer than this is the probe's own unrest. */
export const leastSpans: Record<string, number> = {
  soil_ph: 0.2,
  soil_moisture: 4,
  illuminance: 100,
  soil_temperature: 1,
  wind_speed: 1,
}
