import './plain-words.ts'
import { z } from 'zod'
import { Method, QuantityName } from './quantity.ts'
import { Recipe } from './recipe.ts'

/** RFC 3339 with a time zone: a time without one is refused, never guessed. */
export const Instant = z.iso.datetime({
  offset: true,
  error: 'a time with its zone, such as 2026-06-12T09:30:00Z',
})

/** A board's own name on the wire: letters, digits, dot, dash and underscore (RFC 8428 names, without separators). */
export const BoardName = z
  .string()
  .max(64)
  .regex(/^[A-Za-z0-9][A-Za-z0-9._-]*$/, 'letters, digits, dot, dash and underscore only')

const Label = z
  .string()
  .min(1)
  .max(40)
  .refine((text) => text.trim() === text, 'no space before or after')

const Identifier = z
  .string()
  .max(64)
  .regex(/^[A-Za-z0-9][A-Za-z0-9._-]*$/, 'letters, digits, dot, dash and underscore only')

export const Site = z.strictObject({
  name: z.string().min(1).max(120),
  latitude: z.number().min(-90).max(90).optional(),
  longitude: z.number().min(-180).max(180).optional(),
  /** IANA name, for showing times; stored times are UTC */
  timeZone: z.string().max(64).optional(),
  notes: z.string().max(4000).optional(),
})

export const Zone = z.strictObject({
  name: z.string().min(1).max(40),
  fromMetres: z.number().min(0),
  toMetres: z.number().min(0),
})

export const Transect = z.strictObject({
  id: Identifier,
  name: z.string().min(1).max(120).optional(),
  lengthMetres: z.number().positive().max(10_000),
  /** from the zero mark, degrees clockwise from north */
  bearingDegrees: z.number().min(0).max(360).optional(),
  markSpacingMetres: z.number().positive().default(0.5),
  /** shade, edge, open … from the zero mark on */
  zones: z.array(Zone).default([]),
})

export const Quadrat = z.strictObject({
  label: Label,
  transect: Identifier,
  distanceMetres: z.number().min(0),
  sideMetres: z.number().positive().max(100).default(0.5),
  gridDivisions: z.number().int().min(1).max(100).default(10),
})

/** How to read a sketch that prints separated numbers. */
export const ColumnMap = z.strictObject({
  separator: z.enum(['comma', 'semicolon', 'tab', 'space']),
  decimal: z.enum(['point', 'comma']).default('point'),
  /** one per column, in the order printed; null for a column to leave aside */
  channels: z
    .array(z.strictObject({ channel: Identifier, unit: z.string().max(16) }).nullable())
    .min(1)
    .max(64),
})
export type ColumnMap = z.infer<typeof ColumnMap>

export const SerialPortSetting = z.strictObject({
  path: z.string().min(1).max(260),
  baudRate: z.number().int().min(300).max(921_600).default(115_200),
})
export type SerialPortSetting = z.infer<typeof SerialPortSetting>

export const BoardSetting = z.strictObject({
  name: BoardName,
  serialPort: SerialPortSetting.optional(),
  columns: ColumnMap.optional(),
  sampleIntervalSeconds: z.number().positive().max(86_400).optional(),
  notes: z.string().max(1000).optional(),
})
export type BoardSetting = z.infer<typeof BoardSetting>

export const Probe = z.strictObject({
  id: Identifier,
  serialNumber: z.string().max(64).optional(),
  quantity: QuantityName,
  method: Method.default({}),
  board: BoardName,
  channel: Identifier,
  /** when it was plugged into that channel, and out again; open ends mean always */
  connectedFrom: Instant.optional(),
  connectedTo: Instant.optional(),
  /** how long a calibration of it is trusted, days; without it the quantity's own, see quantity.ts */
  calibrationIntervalDays: z.number().positive().max(3650).optional(),
  /** not to be used any more, and why */
  withdrawn: z.strictObject({ at: Instant, reason: z.string().min(1).max(400) }).optional(),
  /** the channel of the same board that reads the temperature of the same soil, for pH compensation */
  temperatureChannel: Identifier.optional(),
})
export type Probe = z.infer<typeof Probe>

/** “This probe was at this quadrat from … to …”; `quadrat: null` is in transit. */
export const Placement = z.strictObject({
  probe: Identifier,
  quadrat: Label.nullable(),
  from: Instant,
  to: Instant.optional(),
})
export type Placement = z.infer<typeof Placement>

export const Calibration = z.strictObject({
  id: Identifier,
  probe: Identifier,
  /** valid from this moment until the next one */
  validFrom: Instant,
  /** a group label or initials, never a name */
  by: z.string().max(40).optional(),
  note: z.string().max(1000).optional(),
  recipe: Recipe,
  withdrawn: z.strictObject({ at: Instant, reason: z.string().min(1).max(400) }).optional(),
})
export type Calibration = z.infer<typeof Calibration>

/** A known reference measured without adjusting, before or after fieldwork. It never changes a calibration. */
export const CheckStandard = z.strictObject({
  id: Identifier,
  probe: Identifier,
  at: Instant,
  when: z.enum(['before', 'after']),
  /** what it should read, in the unit of the probe's values */
  reference: z.number(),
  /** buffer and set, reference meter, ice … */
  referenceName: z.string().min(1).max(120),
  lot: z.string().max(60).optional(),
  expires: z.iso.date().optional(),
  temperatureCelsius: z.number().min(-20).max(60).optional(),
  /** what the channel sent: the reading is worked out from it by the calibration then in force */
  signal: z.number(),
  signalUnit: z.string().max(16).default(''),
  forced: z.boolean().optional(),
  by: z.string().max(40).optional(),
  note: z.string().max(1000).optional(),
})
export type CheckStandard = z.infer<typeof CheckStandard>

/** Asked for by a person: readings from a calibration to the checks after it are shown corrected as well. */
export const DriftCorrection = z.strictObject({
  probe: Identifier,
  calibration: Identifier,
  /** one or two check standards of one occasion after fieldwork */
  checks: z.array(Identifier).min(1).max(2),
  by: z.string().max(40).optional(),
})
export type DriftCorrection = z.infer<typeof DriftCorrection>

/**
 * By hand, with a reason: readings of a probe in a span of time are left out of the clean set, or suspect ones (never
 * failed ones) are let in. Nothing is deleted; a decision that was taken back stays on record.
 */
export const Decision = z.strictObject({
  id: Identifier,
  probe: Identifier,
  from: Instant,
  /** exclusive */
  to: Instant,
  action: z.enum(['exclude', 'accept']),
  reason: z.string().trim().min(3).max(400),
  by: z.string().max(40).optional(),
  at: Instant,
  takenBack: z.strictObject({ at: Instant, by: z.string().max(40).optional() }).optional(),
})
export type Decision = z.infer<typeof Decision>

/** Thresholds of quality tests, by test and quantity, where they differ from the defaults; `off` switches one off. */
export const QualitySettings = z.record(
  z.string(),
  z.record(z.string(), z.union([z.literal('off'), z.record(z.string(), z.unknown())])),
)
export type QualitySettings = z.infer<typeof QualitySettings>

export const SurveyFile = z.strictObject({
  tussockSurvey: z.literal(1),
  id: Identifier,
  title: z.string().min(1).max(200),
  site: Site,
  from: z.iso.date().optional(),
  to: z.iso.date().optional(),
  transects: z.array(Transect).max(200),
  quadrats: z.array(Quadrat).max(10_000),
  boards: z.array(BoardSetting).max(2000).default([]),
  probes: z.array(Probe).max(10_000).default([]),
  placements: z.array(Placement).max(100_000).default([]),
  calibrations: z.array(Calibration).max(100_000).default([]),
  checks: z.array(CheckStandard).max(100_000).optional(),
  driftCorrections: z.array(DriftCorrection).max(10_000).optional(),
  decisions: z.array(Decision).max(100_000).optional(),
  quality: QualitySettings.optional(),
})
export type SurveyFile = z.infer<typeof SurveyFile>
