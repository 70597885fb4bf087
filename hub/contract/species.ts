import './plain-words.ts'
import { z } from 'zod'

/**
 * How plants were measured. One table has one measure, and measures are never mixed in one column.
 * `cover-percent`, `grid-hits` and `touches` have values in %, 0–100; `presence` 0 or 1; `count` individuals;
 * the two class scales the mid-point of the class in %, see hub/study/species/cover-classes.ts.
 */
export const SpeciesMeasure = z.enum([
  'cover-percent',
  'grid-hits',
  'presence',
  'touches',
  'count',
  'braun-blanquet',
  'domin',
])
export type SpeciesMeasure = z.infer<typeof SpeciesMeasure>

/** A cell as a spreadsheet names it, such as B7; empty when the sheet has no cell for it (a pair left out of a list). */
const CellAddress = z.string().regex(/^([A-Z]{1,3}[1-9]\d*)?$/, 'a cell, such as B7')

/** One taxon in one quadrat. What was not recorded has no record: zero means looked for and absent. */
export const SpeciesRecord = z.strictObject({
  quadrat: z.string().min(1),
  taxon: z.string().min(1),
  measure: SpeciesMeasure,
  value: z.number().min(0),
  /** what was typed, unchanged */
  asWritten: z.string(),
  cell: CellAddress,
  present: z.boolean(),
})
export type SpeciesRecord = z.infer<typeof SpeciesRecord>

/** Something only a person can say. `answer` is null while it is open. An empty list of choices: a number is asked. */
export const SpeciesQuestion = z.strictObject({
  id: z.string().min(1),
  text: z.string().min(1),
  choices: z.array(z.strictObject({ value: z.string().min(1), text: z.string().min(1) })),
  answer: z.string().nullable(),
})
export type SpeciesQuestion = z.infer<typeof SpeciesQuestion>

/** Answers by the id of their question. The same sheet with the same answers is always read the same. */
export const SpeciesAnswers = z.record(z.string(), z.string())
export type SpeciesAnswers = z.infer<typeof SpeciesAnswers>

/** Read in spite of how it was typed: what stood there and what it was taken for. */
export const SpeciesRepair = z.strictObject({
  cell: CellAddress,
  from: z.string(),
  to: z.string(),
  why: z.string(),
})
export type SpeciesRepair = z.infer<typeof SpeciesRepair>

/** Cannot be used as it stands; there is no record of it. */
export const SpeciesFault = z.strictObject({ cell: CellAddress, written: z.string(), message: z.string() })
export type SpeciesFault = z.infer<typeof SpeciesFault>

export const SpeciesTable = z.strictObject({
  /** how the sheet was read, in a sentence */
  reading: z.string(),
  measure: SpeciesMeasure,
  /** what a blank, a dash or a dot was taken for; null when there is none, or nobody has said yet */
  blanks: z.enum(['absent', 'not-recorded']).nullable(),
  /** a quadrat in which nothing at all was typed was not surveyed */
  quadrats: z.array(z.strictObject({ label: z.string(), cell: CellAddress, isSurveyed: z.boolean() })),
  taxa: z.array(z.strictObject({ name: z.string(), cell: CellAddress })),
  records: z.array(SpeciesRecord),
  /** bare ground, litter, rock: kept, but not a taxon */
  ground: z.array(SpeciesRecord),
  /** typed as not recorded, blank, or faulty: neither present nor absent */
  notRecorded: z.array(z.strictObject({ quadrat: z.string(), taxon: z.string(), cell: CellAddress })),
  questions: z.array(SpeciesQuestion),
  repairs: z.array(SpeciesRepair),
  faults: z.array(SpeciesFault),
  notes: z.array(z.string()),
})
export type SpeciesTable = z.infer<typeof SpeciesTable>

/** How long or how often an animal was looked for. Local times without a zone are those of the place. */
export const SamplingEffort = z.strictObject({
  setAt: z.iso.datetime({ offset: true, local: true }).optional(),
  checkedAt: z.iso.datetime({ offset: true, local: true }).optional(),
  hours: z.number().positive().max(10_000).optional(),
  sweeps: z.number().int().positive().optional(),
  traps: z.number().int().positive().optional(),
})
export type SamplingEffort = z.infer<typeof SamplingEffort>

/** Animals of one taxon in one catch. `taxon: null` with count 0 is a trap that held nothing: effort all the same. */
export const AnimalRecord = z.strictObject({
  taxon: z.string().min(1).max(120).nullable(),
  count: z.number().int().min(0),
  /** in the trade’s words, see `knownSamplingMethods` in trap.ts; the list is open */
  method: z.string().min(1).max(60),
  /** the trap, station or quadrat */
  station: z.string().min(1).max(40),
  effort: SamplingEffort,
  cell: CellAddress,
})
export type AnimalRecord = z.infer<typeof AnimalRecord>

export const AnimalTable = z.strictObject({
  records: z.array(AnimalRecord),
  repairs: z.array(SpeciesRepair),
  faults: z.array(SpeciesFault),
  notes: z.array(z.string()),
})
export type AnimalTable = z.infer<typeof AnimalTable>
