import { z } from 'zod'
import { Identifier } from './names.ts'

const seed = z
  .number()
  .int()
  .min(0)
  .max(2 ** 31 - 1)
const side = z.number().positive().max(100)
const count = z.number().int().min(1).max(10_000)
const prefix = z.string().max(20).default('Q')
/** squares along one side of the frame; 10 when it is not given */
const gridDivisions = z.number().int().min(1).max(100).optional()

/** A place that was drawn and not used: on the path, in the pond, a nest. The next one is drawn instead. */
const Rejected = z.strictObject({
  xMetres: z.number().min(0),
  yMetres: z.number().min(0),
  reason: z.string().min(1).max(200),
})

/** How quadrats of a plot or transect were laid out. The same rule gives the same quadrats, always. */
export const PlanRule = z.discriminatedUnion('rule', [
  /** random coordinates on the frame’s own step, none twice, none overlapping */
  z.strictObject({
    rule: z.literal('random'),
    plot: Identifier,
    sideMetres: side.default(0.5),
    gridDivisions,
    count,
    seed,
    rejected: z.array(Rejected).max(1000).default([]),
    prefix,
  }),
  /** the plot in equal parts, the same number of random places in each */
  z.strictObject({
    rule: z.literal('stratified'),
    plot: Identifier,
    sideMetres: side.default(0.5),
    gridDivisions,
    rows: z.number().int().min(1).max(100),
    columns: z.number().int().min(1).max(100),
    perPart: z.number().int().min(1).max(100).default(1),
    seed,
    rejected: z.array(Rejected).max(1000).default([]),
    prefix,
  }),
  /** rows and columns at equal distances from the first corner on */
  z.strictObject({
    rule: z.literal('grid'),
    plot: Identifier,
    sideMetres: side.default(0.5),
    gridDivisions,
    firstXMetres: z.number().min(0).default(0),
    firstYMetres: z.number().min(0).default(0),
    stepXMetres: z.number().positive(),
    stepYMetres: z.number().positive(),
    prefix,
  }),
  /** one quadrat every so many metres of the tape */
  z.strictObject({
    rule: z.literal('along'),
    transect: Identifier,
    sideMetres: side.default(0.5),
    gridDivisions,
    firstMetres: z.number().min(0).default(0),
    everyMetres: z.number().positive(),
    /** past this distance none; the end of the tape when it is not given */
    lastMetres: z.number().min(0).optional(),
    prefix,
  }),
  /** several frames side by side at each station, edge to edge along the tape (`everyMetres` = side) or with gaps */
  z.strictObject({
    rule: z.literal('belt'),
    transect: Identifier,
    sideMetres: side.default(0.5),
    gridDivisions,
    firstMetres: z.number().min(0).default(0),
    everyMetres: z.number().positive(),
    lastMetres: z.number().min(0).optional(),
    sideBySide: z.number().int().min(1).max(20).default(3),
    prefix,
  }),
])
export type PlanRule = z.infer<typeof PlanRule>
