import { z } from 'zod'
import type { Recipe as CalibrationRecipe } from '../../calibration/index.ts'

/** What a person enters for a calibration; meanings, units and sources stand beside the types in calibration/recipe.ts. */
const number = z.number()
const maybe = number.exactOptional()
const positive = number.positive().exactOptional()
const text = z.string().max(120).exactOptional()
const role = z.enum(['fit', 'check']).exactOptional()
const shared = { signalResolution: maybe, driftStandardUncertainty: maybe }

const PhPoint = z.strictObject({
  millivolt: number,
  temperatureCelsius: number,
  bufferSet: text,
  buffer: text,
  ph: maybe,
  standardUncertaintyPh: maybe,
  scatterMillivolt: maybe,
  n: positive,
  lot: text,
  expires: text,
  forced: z.boolean().exactOptional(),
  secondsToStable: maybe,
  role,
})

const PhCriteria = z.strictObject({
  slopePassLowPercent: maybe,
  slopePassHighPercent: maybe,
  slopeWarnLowPercent: maybe,
  slopeWarnHighPercent: maybe,
  offsetPassMillivolt: maybe,
  offsetWarnMillivolt: maybe,
  checkPassPh: maybe,
  checkWarnPh: maybe,
  stablePassSeconds: maybe,
  stableWarnSeconds: maybe,
  bufferSpanPassPh: maybe,
  soilOutsideWarnPh: maybe,
})

const LightPoints = z.array(z.strictObject({ signal: number, lux: number })).max(1000)

export const Recipe = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('ph-electrode'),
    ...shared,
    points: z.array(PhPoint).max(100),
    amplifier: z.strictObject({ gain: number, biasMillivolt: number }).exactOptional(),
    signalIs: z.enum(['electrode', 'amplified-unknown-gain']).exactOptional(),
    criteria: PhCriteria.exactOptional(),
    soilPh: z.strictObject({ low: number, high: number }).exactOptional(),
  }),
  z.strictObject({
    kind: z.literal('wetness-span'),
    ...shared,
    drySignal: number,
    wetSignal: number,
    dryScatter: maybe,
    wetScatter: maybe,
    n: positive,
    signalUnit: text,
    earlier: z.strictObject({ drySignal: number, wetSignal: number }).exactOptional(),
  }),
  z.strictObject({
    kind: z.literal('water-content-fit'),
    ...shared,
    samples: z
      .array(
        z.strictObject({
          signal: number,
          wetGram: number,
          dryGram: number,
          tinGram: number,
          ringCubicCentimetre: number,
          role,
        }),
      )
      .max(1000),
    degree: z.union([z.literal(1), z.literal(2)]).exactOptional(),
    soil: z.string().min(1).max(120),
    organic: z.boolean().exactOptional(),
    signalUnit: text,
    sampleStandardUncertainty: maybe,
  }),
  z.strictObject({
    kind: z.literal('permittivity'),
    ...shared,
    fromSignal: z.strictObject({ slope: number, intercept: number }).exactOptional(),
    signalUnit: text,
    porosity: maybe,
  }),
  z.strictObject({
    kind: z.literal('light-counts'),
    ...shared,
    sensor: z.enum(['bh1750', 'tsl2561']),
    mtreg: maybe,
    mode: z.union([z.literal(1), z.literal(2)]).exactOptional(),
    package: z.enum(['T', 'CS']).exactOptional(),
    gain: z.union([z.literal(1), z.literal(16)]).exactOptional(),
    integration: z.union([z.literal(13.7), z.literal(101), z.literal(402)]).exactOptional(),
    factor: maybe,
    factorRelativeStandardUncertainty: maybe,
    darkLux: maybe,
  }),
  z.strictObject({
    kind: z.literal('light-power'),
    ...shared,
    points: LightPoints,
    signalUnit: text,
    fullScaleSignal: maybe,
  }),
  z.strictObject({
    kind: z.literal('light-span'),
    ...shared,
    points: LightPoints,
    signalUnit: text,
    fullScaleSignal: maybe,
    referenceFullScaleLux: maybe,
    referenceRelativeStandardUncertainty: maybe,
    signalScatter: maybe,
  }),
  z.strictObject({
    kind: z.literal('digital-temperature'),
    ...shared,
    signalIs: z.enum(['celsius', 'sixteenths']).exactOptional(),
    offsetCelsius: maybe,
    icePoint: z.array(number).max(1000).exactOptional(),
    icePointStandardUncertaintyCelsius: maybe,
    secondPoint: z.strictObject({ reading: number, reference: number }).exactOptional(),
    toleranceCelsius: maybe,
  }),
  z.strictObject({
    kind: z.literal('thermistor'),
    ...shared,
    points: z
      .array(z.strictObject({ ohm: number, celsius: number }))
      .max(100)
      .exactOptional(),
    beta: z.strictObject({ ohmAt25: number, betaKelvin: number }).exactOptional(),
    offsetCelsius: maybe,
    divider: z.strictObject({ seriesOhm: number, fullScaleCounts: number }).exactOptional(),
    referenceStandardUncertaintyCelsius: maybe,
  }),
  z.strictObject({
    kind: z.literal('platinum'),
    ...shared,
    ohmAtZero: maybe,
    offsetCelsius: maybe,
    toleranceClass: z.enum(['A', 'B']).exactOptional(),
  }),
  z.strictObject({
    kind: z.literal('cup-anemometer'),
    ...shared,
    offsetMetresPerSecond: maybe,
    slopeMetresPerSecondPerHertz: maybe,
    startingThresholdMetresPerSecond: maybe,
    standardUncertaintyMetresPerSecond: maybe,
    pairs: z
      .array(z.strictObject({ hertz: number, metresPerSecond: number }))
      .max(1000)
      .exactOptional(),
    countSeconds: positive,
  }),
  z.strictObject({
    kind: z.literal('line'),
    ...shared,
    unit: z.string().max(16),
    points: z
      .array(
        z.strictObject({
          signal: number,
          reference: number,
          standardUncertainty: maybe,
          scatter: maybe,
          n: positive,
        }),
      )
      .max(1000)
      .exactOptional(),
    slope: maybe,
    intercept: maybe,
    signalUnit: text,
    standardUncertainty: maybe,
  }),
  z.strictObject({
    kind: z.literal('already-a-value'),
    ...shared,
    unit: z.string().max(16),
    offset: maybe,
    standardUncertainty: maybe,
  }),
])

// the schema and the mathematics name the same fields: this line does not compile when one of them moves on alone
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never
const isSame: Same<z.infer<typeof Recipe>, CalibrationRecipe> = true
void isSame
