import { type Procedure, proceduresFor, type Recipe } from '../../../calibration/index.ts'

/** The procedure whose references fit a calibration in force: oven samples check a water content, not a wetness. */
export function checkProcedure(quantity: string, kind: Recipe['kind']): Procedure {
  const ways = proceduresFor(quantity)
  return ways.find((procedure) => procedure.recipe([], {}).kind === kind) ?? ways[0]!
}
