import { z } from 'zod'
import { Instant } from './names.ts'
import { Method } from './quantity.ts'
import {
  AnimalRecord,
  AnimalTable,
  SpeciesAnswers,
  SpeciesMeasure,
  SpeciesQuestion,
  SpeciesTable,
} from './species.ts'

/** One local day of a series. */
export const DayOfQuadrat = z.object({
  /** at the site: 2026-06-12 */
  day: z.string(),
  n: z.number().int(),
  low: z.number(),
  high: z.number(),
  amplitude: z.number(),
  mean: z.number(),
  /** light: sum over the day in lx·h by the trapezium rule, gaps over 10 min left out; null for other quantities */
  sumLuxHours: z.number().nullable(),
})
export type DayOfQuadrat = z.infer<typeof DayOfQuadrat>

/** One quantity, measured in one way, at one quadrat. Numbers are in `unit`; null where they cannot be known. */
export const QuadratSummary = z.object({
  quadrat: z.string(),
  quantity: z.string(),
  method: Method,
  unit: z.string(),
  /** spot readings: insertions; logged: readings */
  kind: z.enum(['spot', 'logged']),
  probes: z.array(z.string()),
  calibrations: z.array(z.string()),
  /** clean values used: replicates of spot readings, or logged readings */
  n: z.number().int(),
  /** values received at this quadrat, clean or not */
  received: z.number().int(),
  /** neighbours in time resemble each other: so many independent values it is worth; n for spot readings */
  effectiveN: z.number().nullable(),
  from: Instant,
  to: Instant,
  mean: z.number(),
  median: z.number(),
  standardDeviation: z.number().nullable(),
  standardError: z.number().nullable(),
  low: z.number(),
  high: z.number(),
  lowerQuartile: z.number(),
  upperQuartile: z.number(),
  /** the value that stands for the quadrat in graphs and tests, and which statistic it is */
  value: z.number(),
  statistic: z.enum(['mean', 'median']),
  /** standard uncertainty of the mean from the spread between values */
  samplingUncertainty: z.number().nullable(),
  /** standard uncertainty of probe and calibration, which all values share */
  probeUncertainty: z.number().nullable(),
  /** of direct insertion of a pH electrode: what the method itself adds; null for other methods */
  methodUncertainty: z.number().nullable(),
  /** all together: half the width of the 95 % interval of the mean */
  expanded: z.number().nullable(),
  degreesOfFreedom: z.number().nullable(),
  /** pH only, and only when asked for: −log10 of the mean hydrogen-ion concentration */
  hydrogenIonMean: z.number().nullable(),
  days: z.array(DayOfQuadrat),
  /** light: % of open sky at the same moments */
  openSkyPercent: z.number().nullable(),
  /** wind: largest running 3 s mean where readings are 1 s apart, else the largest reading; m/s */
  gust: z.number().nullable(),
  /** wind: share of averaging blocks without a turn of the cups, % */
  calmPercent: z.number().nullable(),
  /** mean difference from a probe of the same kind that logged at a fixed place, at the same minutes */
  differenceFromFixed: z.object({ probe: z.string(), mean: z.number(), n: z.number().int() }).nullable(),
})
export type QuadratSummary = z.infer<typeof QuadratSummary>

/** What a reader must know before comparing quadrats in one quantity. */
export const FactorCaution = z.object({
  quantity: z.string(),
  method: Method,
  kind: z.enum(['different-hours', 'follows-clock', 'few-quadrats', 'unlike-methods', 'different-soil']),
  text: z.string(),
})
export type FactorCaution = z.infer<typeof FactorCaution>

export const StudySummary = z.object({
  quadrats: z.array(
    z.object({
      label: z.string(),
      zone: z.string().nullable(),
      distanceMetres: z.number().nullable(),
      place: z.string(),
    }),
  ),
  summaries: z.array(QuadratSummary),
  cautions: z.array(FactorCaution),
  /** the span in which every quadrat of a quantity was logging, when the summary was limited to it */
  window: z.object({ from: Instant, to: Instant }).nullable(),
})
export type StudySummary = z.infer<typeof StudySummary>

/** A sheet of species or animals as it was given, kept whole; what is read from it follows from bytes and answers. */
export const StudySheet = z.object({
  id: z.number().int(),
  kind: z.enum(['species', 'animals']),
  name: z.string(),
  at: Instant,
  by: z.string().nullable(),
  answers: SpeciesAnswers,
  isRemoved: z.boolean(),
  /** of species; null when it is of animals or cannot be read */
  table: SpeciesTable.nullable(),
  animals: AnimalTable.nullable(),
  /** why it cannot be read */
  trouble: z.string().nullable(),
})
export type StudySheet = z.infer<typeof StudySheet>

/** One factor beside one species. */
export const StudyPair = z.object({
  factor: z.string(),
  factorUnit: z.string(),
  species: z.string(),
  measure: SpeciesMeasure,
  n: z.number().int(),
  points: z.array(
    z.object({ quadrat: z.string(), x: z.number(), y: z.number(), expanded: z.number().nullable() }),
  ),
  rho: z.number().nullable(),
  p: z.number().nullable(),
  adjustedP: z.number().nullable(),
  method: z.string(),
  rhoLow: z.number().nullable(),
  rhoHigh: z.number().nullable(),
  pearson: z.number().nullable(),
  pearsonP: z.number().nullable(),
  /** share of redraws within the uncertainties in which it stays significant; null when not asked for or not defined */
  significantShare: z.number().nullable(),
  result: z.string().nullable(),
  verdict: z.string().nullable(),
  cautions: z.array(z.string()),
})
export type StudyPair = z.infer<typeof StudyPair>

export const StudyTable = z.object({
  headings: z.array(z.string()),
  rows: z.array(z.array(z.union([z.string(), z.number(), z.null()]))),
})
export type StudyTable = z.infer<typeof StudyTable>

export const StudyJoin = z.object({
  wide: StudyTable,
  long: StudyTable,
  unmatched: StudyTable,
  questions: z.array(SpeciesQuestion),
  explanation: z.array(z.string()),
})
export type StudyJoin = z.infer<typeof StudyJoin>

export const QuadratDiversity = z.object({
  quadrat: z.string(),
  richness: z.number().int(),
  simpson: z.number().nullable(),
  simpsonForm: z.string(),
  shannon: z.number().nullable(),
  evenness: z.number().nullable(),
})
export type QuadratDiversity = z.infer<typeof QuadratDiversity>

export const StudyStatistics = z.object({
  pairs: z.array(StudyPair),
  /** tests made, and how many would seem significant by chance alone */
  tests: z.number().int(),
  expectedFalseAlarms: z.number(),
  diversity: z.array(QuadratDiversity),
  frequency: z.array(
    z.object({
      taxon: z.string(),
      present: z.number().int(),
      recorded: z.number().int(),
      percent: z.number(),
      low: z.number(),
      high: z.number(),
      meanCover: z.number().nullable(),
      coverLow: z.number().nullable(),
      coverHigh: z.number().nullable(),
    }),
  ),
  /** each quantity between the zones of the transect */
  zones: z.array(
    z.object({
      factor: z.string(),
      unit: z.string(),
      groups: z.array(z.object({ zone: z.string(), values: z.array(z.number()) })),
      test: z.string(),
      statistic: z.number().nullable(),
      p: z.number().nullable(),
      text: z.string(),
    }),
  ),
  /** first axes of a principal components analysis of the standardised factors; null with the reason when not possible */
  ordination: z
    .object({
      factors: z.array(z.string()),
      axes: z.array(z.object({ share: z.number(), loadings: z.array(z.number()) })),
      scores: z.array(z.object({ quadrat: z.string(), at: z.array(z.number()) })),
    })
    .nullable(),
  ordinationWhyNot: z.string().nullable(),
})
export type StudyStatistics = z.infer<typeof StudyStatistics>

/** A catch with what the probes of its quadrat read while the trap stood. */
export const ExposedCatch = z.object({
  record: AnimalRecord,
  quadrat: z.string().nullable(),
  fromMs: z.number().nullable(),
  toMs: z.number().nullable(),
  hours: z.number().nullable(),
  perTrap: z.number(),
  perTrapHour: z.number().nullable(),
  factors: z.array(
    z.object({
      quantity: z.string(),
      method: z.string(),
      unit: z.string(),
      n: z.number().int(),
      mean: z.number(),
      low: z.number(),
      high: z.number(),
    }),
  ),
  /** why there are no factors; null when there may be */
  whyNone: z.string().nullable(),
})
export type ExposedCatch = z.infer<typeof ExposedCatch>
