import { createRoute, z } from '@hono/zod-openapi'
import { Label } from './names.ts'
import { PlanRule } from './plan.ts'
import { body, json, refusals, surveyId } from './route-parts.ts'
import { Plot, Quadrat, SurveyFile, Transect } from './survey.ts'

const PlanLaid = z.strictObject({
  transects: z.array(Transect).max(200),
  plots: z.array(Plot).max(200).default([]),
  plan: z.array(PlanRule).max(200).default([]),
})

/** A plan on the drawing board: what it was laid by, what it is to be laid by, and its quadrats with changes by hand. */
export const PlanWish = z.strictObject({
  before: PlanLaid,
  after: PlanLaid,
  quadrats: z.array(Quadrat).max(10_000),
  /** the order of visiting, as far as it is fixed; the others follow in the order of the list */
  walk: z.array(Label).max(10_000).default([]),
  /** labels of groups that are to share the quadrats */
  groups: z.array(z.string().min(1).max(20)).max(100).default([]),
})
export type PlanWish = z.input<typeof PlanWish>

const Fault = z.object({ path: z.string(), message: z.string() })

/** An order of visiting with what it costs and how far it follows the gradient. */
export const WalkJudged = z.object({
  /** how it goes, in words */
  words: z.string(),
  labels: z.array(z.string()),
  /** from quadrat to quadrat within tapes and plots */
  metres: z.number(),
  /** the largest rank correlation of turn and distance along a tape, without its sign; 0 when there is no tape */
  strongest: z.number(),
})
export type WalkJudged = z.infer<typeof WalkJudged>

export const PlanDrawn = z.object({
  /** when there are any, nothing was laid and `quadrats` is empty */
  faults: z.array(Fault),
  quadrats: z.array(Quadrat),
  /** for each quadrat the index of its rule, null when it was put there by hand */
  rules: z.array(z.number().int().nullable()),
  /** advice in plain words; a plan with warnings can be kept */
  warnings: z.array(z.string()),
  walk: z.object({
    planned: WalkJudged,
    /** the order follows the tape */
    warnings: z.array(z.string()),
    proposed: WalkJudged.nullable(),
    others: z.array(WalkJudged),
  }),
  /** how the groups could share them, in the order of `groups` */
  shares: z.array(z.object({ group: z.string(), walk: WalkJudged })),
})
export type PlanDrawn = z.infer<typeof PlanDrawn>

/** The part of a survey that is planned; everything else of it stays as it is. */
export const KeepPlan = SurveyFile.pick({
  title: true,
  site: true,
  from: true,
  to: true,
  transects: true,
  plots: true,
  quadrats: true,
  plan: true,
  walk: true,
  groups: true,
  wanted: true,
})
export type KeepPlan = z.infer<typeof KeepPlan>

/** What keeping a plan changes, in plain words. */
export const PlanChanges = z.object({
  changes: z.array(z.string()),
  /** quadrats that something was measured at or placed at: they keep their label, and are lifted rather than removed */
  measured: z.array(z.string()),
  /** the plan cannot be kept for these */
  faults: z.array(Fault),
})
export type PlanChanges = z.infer<typeof PlanChanges>

/** Values in the order of visiting, of one quantity. */
export const EnoughWish = z.strictObject({
  values: z.array(z.number()).max(10_000),
  /** wished half-width of the 95 % interval, as part of the mean: 0.1 is ±10 % */
  relativeHalfWidth: z.number().positive().max(10).default(0.1),
})
export type EnoughWish = z.input<typeof EnoughWish>

export const Enough = z.object({
  steps: z.array(
    z.object({
      n: z.number().int(),
      mean: z.number(),
      /** null with one value */
      standardError: z.number().nullable(),
    }),
  ),
  /** from this many on the last three running means lie within ±5 % of the final one; null: not settled */
  settledAt: z.number().int().nullable(),
  /** how many in all the wished half-width needs; null when it cannot be told from these values */
  needed: z.number().int().nullable(),
  sentence: z.string(),
})
export type Enough = z.infer<typeof Enough>

export const postPlanDrawing = createRoute({
  method: 'post',
  path: '/api/plan/draw',
  summary: 'Lay quadrats by rules and judge the order of visiting; nothing is kept',
  request: body(PlanWish),
  responses: { 200: json(PlanDrawn, 'The quadrats, or why they cannot be laid.'), ...refusals },
})

export const postEnough = createRoute({
  method: 'post',
  path: '/api/plan/enough',
  summary: 'Running mean of values in the order of visiting, and how many more are needed',
  request: body(EnoughWish),
  responses: { 200: json(Enough, 'The running mean.'), ...refusals },
})

export const postPlanPreview = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/plan/preview',
  summary: 'What keeping this plan would change; nothing is kept',
  request: { params: surveyId, ...body(KeepPlan) },
  responses: { 200: json(PlanChanges, 'Changes in plain words.'), ...refusals },
})

export const postPlan = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/plan',
  summary: 'Keep a plan: quadrats that something was measured at are lifted, never removed',
  request: { params: surveyId, ...body(KeepPlan) },
  responses: {
    200: json(z.object({ done: z.literal(true), changes: z.array(z.string()) }), 'It is kept.'),
    ...refusals,
  },
})
