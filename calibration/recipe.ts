/**
 * What a person enters for a calibration and what the survey file keeps: plain JSON, one shape per kind.
 * Signals are as the channel sends them.
 */
export type Recipe =
  | PhElectrodeRecipe
  | WetnessSpanRecipe
  | WaterContentFitRecipe
  | PermittivityRecipe
  | LightCountsRecipe
  | LightPowerRecipe
  | LightSpanRecipe
  | DigitalTemperatureRecipe
  | ThermistorRecipe
  | PlatinumRecipe
  | CupAnemometerRecipe
  | LineRecipe
  | AlreadyAValueRecipe

/** May be stated for any probe; what is not stated is left out of the budget. */
export interface SharedTerms {
  /** smallest step of the signal, in the signal's unit */
  signalResolution?: number
  /** standard uncertainty by which the probe may have wandered since, in the unit of the value */
  driftStandardUncertainty?: number
}

/** One beaker of buffer. Either `bufferSet` and `buffer`, or `ph` as printed on the bottle, which wins. */
export interface PhPoint {
  /** what the channel sends, mV */
  millivolt: number
  /** measured in the beaker, °C */
  temperatureCelsius: number
  bufferSet?: string
  buffer?: string
  ph?: number
  /** of the buffer's pH, k = 1; a class buffer's ±0.02 is assumed when not stated */
  standardUncertaintyPh?: number
  /** sample standard deviation of the signal while it was held, mV */
  scatterMillivolt?: number
  /** how many signals were averaged */
  n?: number
  lot?: string
  /** date printed on the bottle, ISO 8601 */
  expires?: string
  /** kept although it had not become steady */
  forced?: boolean
  secondsToStable?: number
  /** `check`: measured without being used in the fit */
  role?: 'fit' | 'check'
}

/** Limits of the verdict on a pH electrode; each may be edited. */
export interface PhCriteria {
  slopePassLowPercent: number
  slopePassHighPercent: number
  slopeWarnLowPercent: number
  slopeWarnHighPercent: number
  offsetPassMillivolt: number
  offsetWarnMillivolt: number
  checkPassPh: number
  checkWarnPh: number
  stablePassSeconds: number
  stableWarnSeconds: number
  bufferSpanPassPh: number
  soilOutsideWarnPh: number
}

export interface PhElectrodeRecipe extends SharedTerms {
  kind: 'ph-electrode'
  points: PhPoint[]
  /** signal = gain · electrode + bias */
  amplifier?: { gain: number; biasMillivolt: number }
  /** `electrode` (default): the signal, after undoing `amplifier`, is the electrode's own millivolts */
  signalIs?: 'electrode' | 'amplified-unknown-gain'
  criteria?: Partial<PhCriteria>
  /** pH the soils are expected to have, to judge whether the buffers bracket them */
  soilPh?: { low: number; high: number }
}

/** Relative wetness between two signals: 0 at the dry one, 1 at the wet one. Not a water content. */
export interface WetnessSpanRecipe extends SharedTerms {
  kind: 'wetness-span'
  drySignal: number
  wetSignal: number
  /** sample standard deviations and number of the signals averaged at each end */
  dryScatter?: number
  wetScatter?: number
  n?: number
  signalUnit?: string
  /** the same two ends on an earlier day, to see whether the probe has moved */
  earlier?: { drySignal: number; wetSignal: number }
}

/** One ring of soil, weighed with its tin before and after the oven. */
export interface SoilSample {
  signal: number
  wetGram: number
  dryGram: number
  tinGram: number
  ringCubicCentimetre: number
  /** `check`: not used in the fit */
  role?: 'fit' | 'check'
}

export interface WaterContentFitRecipe extends SharedTerms {
  kind: 'water-content-fit'
  samples: SoilSample[]
  degree?: 1 | 2
  /** which soil the samples came from */
  soil: string
  organic?: boolean
  signalUnit?: string
  /** standard uncertainty of one oven-dried water content, m³/m³ */
  sampleStandardUncertainty?: number
}

/** Relative permittivity to volumetric water content; the signal is the permittivity, or a line turns it into one. */
export interface PermittivityRecipe extends SharedTerms {
  kind: 'permittivity'
  /** permittivity = slope · signal + intercept */
  fromSignal?: { slope: number; intercept: number }
  signalUnit?: string
  /** total pore space of the soil, m³/m³ */
  porosity?: number
}

export interface LightCountsRecipe extends SharedTerms {
  kind: 'light-counts'
  sensor: 'bh1750' | 'tsl2561'
  /** bh1750 measurement-time register, 31–254 */
  mtreg?: number
  /** bh1750: 1 for high resolution and low resolution, 2 for high resolution mode 2 */
  mode?: 1 | 2
  /** tsl2561 package */
  package?: 'T' | 'CS'
  /** tsl2561 gain */
  gain?: 1 | 16
  /** tsl2561 integration time, ms */
  integration?: 13.7 | 101 | 402
  /** side-by-side factor k = Σ reference / Σ probe; the lux are multiplied by it */
  factor?: number
  /** relative standard uncertainty of that factor, 0.05 for 5 % */
  factorRelativeStandardUncertainty?: number
  /** what the covered sensor reads, lx */
  darkLux?: number
}

export interface LightPoint {
  signal: number
  lux: number
}

/** Photoresistor: a straight line through log signal and log lux. */
export interface LightPowerRecipe extends SharedTerms {
  kind: 'light-power'
  points: LightPoint[]
  signalUnit?: string
  /** full scale of the converter: at or above it the value is saturated */
  fullScaleSignal?: number
}

/** A light sensor with a straight answer, set against a reference meter in the dark and in the light. */
export interface LightSpanRecipe extends SharedTerms {
  kind: 'light-span'
  points: LightPoint[]
  signalUnit?: string
  fullScaleSignal?: number
  /** full scale of the reference meter, lx: a reference at or above it is refused */
  referenceFullScaleLux?: number
  /** standard uncertainty of the reference meter, as a part of its reading */
  referenceRelativeStandardUncertainty?: number
  /** sample standard deviation of one signal */
  signalScatter?: number
}

export interface DigitalTemperatureRecipe extends SharedTerms {
  kind: 'digital-temperature'
  /** `celsius` (default), or `sixteenths`: the sensor's 16-bit word, two's complement, 1/16 °C per step */
  signalIs?: 'celsius' | 'sixteenths'
  offsetCelsius?: number
  /** readings in melting ice, °C: the offset becomes minus their mean */
  icePoint?: number[]
  /** standard uncertainty of the ice bath itself, °C */
  icePointStandardUncertaintyCelsius?: number
  /** a second point against a reference thermometer; checked, not fitted */
  secondPoint?: { reading: number; reference: number }
  /** published tolerance of the sensor as bought, ± °C */
  toleranceCelsius?: number
}

export interface ThermistorRecipe extends SharedTerms {
  kind: 'thermistor'
  /** three points for the Steinhart–Hart equation */
  points?: { ohm: number; celsius: number }[]
  beta?: { ohmAt25: number; betaKelvin: number }
  offsetCelsius?: number
  /** the signal is the counts of a divider: thermistor to ground, series resistor to the supply */
  divider?: { seriesOhm: number; fullScaleCounts: number }
  /** standard uncertainty of the reference temperatures, °C */
  referenceStandardUncertaintyCelsius?: number
}

export interface PlatinumRecipe extends SharedTerms {
  kind: 'platinum'
  ohmAtZero?: number
  offsetCelsius?: number
  /** tolerance class of IEC 60751 */
  toleranceClass?: 'A' | 'B'
}

export interface CupAnemometerRecipe extends SharedTerms {
  kind: 'cup-anemometer'
  offsetMetresPerSecond?: number
  slopeMetresPerSecondPerHertz?: number
  startingThresholdMetresPerSecond?: number
  standardUncertaintyMetresPerSecond?: number
  /** fitted instead of offset and slope, when there are two or more */
  pairs?: { hertz: number; metresPerSecond: number }[]
  /** the signal is a count of pulses over this many seconds, not a frequency */
  countSeconds?: number
}

export interface LinePoint {
  signal: number
  reference: number
  /** of the reference */
  standardUncertainty?: number
  /** sample standard deviation of the signal at this point, and how many were averaged */
  scatter?: number
  n?: number
}

/** Any other probe with a straight answer: value = slope · signal + intercept. */
export interface LineRecipe extends SharedTerms {
  kind: 'line'
  unit: string
  points?: LinePoint[]
  slope?: number
  intercept?: number
  signalUnit?: string
  /** standard uncertainty of the value when slope and intercept come from a sheet */
  standardUncertainty?: number
}

/** The board sends the value itself. */
export interface AlreadyAValueRecipe extends SharedTerms {
  kind: 'already-a-value'
  unit: string
  /** added to what the board sends */
  offset?: number
  standardUncertainty?: number
}
