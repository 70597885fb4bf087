import { z } from 'zod'
import type { Refusal } from '../../calibration/index.ts'
import type { Computation } from './computation.ts'

/**
 * Runs one computation on parsed JSON.
 * @returns the output, or a refusal: `E_COMPUTATION` for an unknown name, `E_INPUT` for a bad shape, naming the
 *   field's path and what was received, or the computation's own
 */
export function runFrom(computations: readonly Computation[], name: string, json: unknown): unknown {
  const computation = computations.find((each) => each.name === name)
  if (computation === undefined) {
    const known = computations.map((each) => each.name).join(', ')
    return refusal('E_COMPUTATION', `There is no computation “${name}”. Known: ${known}.`)
  }
  const parsed = computation.input.safeParse(json)
  if (!parsed.success) return refusal('E_INPUT', describeIssues(name, parsed.error, json))
  return computation.run(parsed.data as never)
}

function refusal(code: string, message: string): Refusal {
  return { refused: true, code, message }
}

function describeIssues(name: string, error: z.ZodError, json: unknown): string {
  const lines = error.issues.map((issue) => {
    const path = issue.path.map(String)
    const shown = path.length === 0 ? 'the input' : `“${path.join('.')}”`
    return `${shown}: ${issue.message}, received ${receivedAt(json, issue.path)}`
  })
  return `${name} cannot read its input. ${lines.join('; ')}.`
}

function receivedAt(json: unknown, path: readonly PropertyKey[]): string {
  let here = json
  for (const key of path) {
    if (typeof here !== 'object' || here === null) return 'nothing'
    here = (here as Record<PropertyKey, unknown>)[key]
  }
  if (here === undefined) return 'nothing'
  const text = typeof here === 'number' ? String(here) : JSON.stringify(here)
  return text.length > 60 ? `${text.slice(0, 57)}…` : text
}

/** What each computation is and the JSON schemas of its input and output. */
export function describeFrom(computations: readonly Computation[]) {
  return computations.map((computation) => ({
    name: computation.name,
    title: computation.title,
    source: computation.source,
    units: computation.units,
    input: z.toJSONSchema(computation.input, { io: 'input' }),
    output: z.toJSONSchema(computation.output, { io: 'output' }),
  }))
}
