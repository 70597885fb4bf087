import type { PlanDrawn, WalkJudged } from '../../../hub/contract/plan-api.ts'

/** An order that follows a tape by less than this is broken enough; the hub proposes none that follows it more. */
const BROKEN_AT_MOST = 0.3
/** A way is shorter when it saves this share of the walking; equal ones differ by where they happen to begin. */
const WORTH_SAVING = 0.05

/** The proposed order if it is better than the planned one: one that was taken is not proposed again for a metre. */
export function worthProposing({ planned, proposed, warnings }: PlanDrawn['walk']): WalkJudged | null {
  if (!proposed) return null
  const isMoreBroken = planned.strongest > BROKEN_AT_MOST && proposed.strongest < planned.strongest
  const isShorter = proposed.metres < planned.metres * (1 - WORTH_SAVING)
  return warnings.length > 0 || isMoreBroken || isShorter ? proposed : null
}
