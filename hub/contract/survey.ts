import { z } from 'zod'
import { BoardName, Identifier, Instant, Label } from './names.ts'
import { PlanRule } from './plan.ts'
import { Method, QuantityName } from './quantity.ts'
import { Recipe } from './recipe.ts'
import { Spot } from './spot.ts'
import { Trap } from './trap.ts'

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

/** A rectangle of ground that quadrats are drawn in; its corner (0, 0) is at the lower left of the drawing. */
export const Plot = z.strictObject({
  id: Identifier,
  name: z.string().min(1).max(120).optional(),
  /** along x, from the corner */
  widthMetres: z.number().positive().max(10_000),
  /** along y */
  heightMetres: z.number().positive().max(10_000),
  /** of the y axis, degrees clockwise from north */
  bearingDegrees: z.number().min(0).max(360).optional(),
})
export type Plot = z.infer<typeof Plot>

/** A sampling square: on a transect at a distance, or in a plot with its lower-left corner at (x, y). */
export const Quadrat = z
  .strictObject({
    label: Label,
    transect: Identifier.optional(),
    distanceMetres: z.number().min(0).optional(),
    /** beside the tape: of its middle, to the right as one looks away from the zero mark; left is negative */
    offsetMetres: z.number().min(-1000).max(1000).optional(),
    plot: Identifier.optional(),
    xMetres: z.number().min(0).optional(),
    yMetres: z.number().min(0).optional(),
    sideMetres: z.number().positive().max(100).default(0.5),
    gridDivisions: z.number().int().min(1).max(100).default(10),
    /** the frame was taken up: nothing more is measured here */
    lifted: z.strictObject({ at: Instant, reason: z.string().max(400).optional() }).optional(),
  })
  .refine(
    ({ transect, distanceMetres, plot, xMetres, yMetres }) =>
      plot === undefined
        ? transect !== undefined &&
          distanceMetres !== undefined &&
          xMetres === undefined &&
          yMetres === undefined
        : transect === undefined &&
          distanceMetres === undefined &&
          xMetres !== undefined &&
          yMetres !== undefined,
    'either transect and distanceMetres, or plot, xMetres and yMetres',
  )
export type Quadrat = z.infer<typeof Quadrat>

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
  /** carried from quadrat to quadrat: its readings count only where a spot reading says so */
  isCarried: z.boolean().optional(),
  /** a meter without a connection: its values are read off and typed in; board is `by-hand` */
  isTyped: z.boolean().optional(),
  /** stands for the whole survey, not for one quadrat: light under the open sky, wind at the mast */
  reference: z.enum(['open-sky', 'wind-mast']).optional(),
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

/** What is to be measured at every quadrat, and how often: what “complete” means. */
export const Wanted = z.strictObject({
  quantity: QuantityName,
  method: Method.default({}),
  /** spot readings are taken this many times at a quadrat, re-inserted each time; 1 for a standing probe */
  replicates: z.number().int().min(1).max(50).default(3),
  /** by a carried meter, or by a probe that stands there and logs */
  by: z.enum(['carried', 'standing']).default('carried'),
  /** how long one quadrat takes, for the time left */
  minutes: z.number().positive().max(240).default(4),
  /** quadrats it is wanted at; all when it is not given */
  quadrats: z.array(Label).max(10_000).optional(),
})
export type Wanted = z.infer<typeof Wanted>

/** A group of the class, by a label such as `G3`; never names. */
export const Group = z.strictObject({
  label: z.string().min(1).max(20),
  /** the quadrats it is to visit */
  quadrats: z.array(Label).max(10_000).default([]),
})
export type Group = z.infer<typeof Group>

/** A board’s clock was wrong by this much in a span: its readings are moved by `offsetSeconds`. */
export const ClockCorrection = z.strictObject({
  id: Identifier,
  board: BoardName,
  /** by the board’s own wrong times; `to` is exclusive */
  from: Instant,
  to: Instant,
  /** added to the time of each reading */
  offsetSeconds: z
    .number()
    .min(-400 * 86_400)
    .max(400 * 86_400),
  /** how well that is known, seconds */
  errorSeconds: z.number().min(0).max(86_400).optional(),
  reason: z.string().trim().min(3).max(400),
  by: z.string().max(40).optional(),
  at: Instant,
})
export type ClockCorrection = z.infer<typeof ClockCorrection>

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
  plots: z.array(Plot).max(200).optional(),
  quadrats: z.array(Quadrat).max(10_000),
  /** how the quadrats were drawn, so that the list can be drawn again */
  plan: z.array(PlanRule).max(200).optional(),
  /** in which order the quadrats are visited */
  walk: z.array(Label).max(10_000).optional(),
  groups: z.array(Group).max(100).optional(),
  wanted: z.array(Wanted).max(100).optional(),
  traps: z.array(Trap).max(2000).optional(),
  clockCorrections: z.array(ClockCorrection).max(10_000).optional(),
  boards: z.array(BoardSetting).max(2000).default([]),
  probes: z.array(Probe).max(10_000).default([]),
  placements: z.array(Placement).max(100_000).default([]),
  calibrations: z.array(Calibration).max(100_000).default([]),
  checks: z.array(CheckStandard).max(100_000).optional(),
  driftCorrections: z.array(DriftCorrection).max(10_000).optional(),
  decisions: z.array(Decision).max(100_000).optional(),
  quality: QualitySettings.optional(),
  /** spot readings, in files only: the hub keeps them beside the survey, and those it does not know yet it takes in */
  spots: z.array(Spot).max(100_000).optional(),
})
export type SurveyFile = z.infer<typeof SurveyFile>
