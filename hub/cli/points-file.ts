import { readFile } from 'node:fs/promises'
import { z } from 'zod'
import { type Captured, PROCEDURES, type Procedure, type Recipe } from '../../calibration/index.ts'
import { Recipe as RecipeSchema } from '../contract/recipe.ts'
import { HubError, messageOf } from '../errors.ts'
import { pathText } from '../survey/read-survey-file.ts'

const fields = z.record(z.string(), z.union([z.string(), z.number()]))

/** Points as they were captured, for a procedure of the bench. Everything but the signal is a field of the procedure. */
const PointsFile = z.strictObject({
  procedure: z.string(),
  settings: fields.default({}),
  points: z.array(
    z.strictObject({
      signal: z.number(),
      scatter: z.number().nullable().default(null),
      n: z.number().int().positive().default(1),
      forced: z.boolean().default(false),
      secondsToSteady: z.number().nullable().default(null),
      role: z.enum(['fit', 'check']).default('fit'),
      fields: fields.default({}),
    }),
  ),
})

/**
 * Reads a file of points into a recipe: either `{"procedure","settings","points"}`, or a recipe as a survey file has it.
 * @throws HubError `E_CALIBRATION_FILE` naming what is wrong and where
 */
export async function readPointsFile(path: string): Promise<Recipe> {
  let json: unknown
  try {
    json = JSON.parse(await readFile(path, 'utf8'))
  } catch (error) {
    throw new HubError('E_CALIBRATION_FILE', `${path} cannot be read (${messageOf(error)}).`, {
      cause: error,
    })
  }
  const isRecipe = typeof json === 'object' && json !== null && 'kind' in json
  const read = isRecipe ? RecipeSchema.safeParse(json) : PointsFile.safeParse(json)
  if (!read.success) {
    const faults = read.error.issues.map((issue) => `${pathText(issue.path) || 'file'}: ${issue.message}`)
    throw new HubError('E_CALIBRATION_FILE', `${path}: ${faults.join('; ')}.`)
  }
  if ('kind' in read.data) return read.data
  const { procedure, settings, points } = read.data
  return procedureCalled(procedure).recipe(
    points.map(({ forced, ...point }): Captured => ({ ...point, isForced: forced })),
    settings,
  )
}

export function procedureCalled(id: string): Procedure {
  const procedure = PROCEDURES.find((candidate) => candidate.id === id)
  if (procedure) return procedure
  throw new HubError(
    'E_CALIBRATION_FILE',
    `There is no procedure "${id}"; there are ${PROCEDURES.map((each) => each.id).join(', ')}.`,
  )
}
