import type { z } from 'zod'
import { isRefusal, type Refusal } from '../../calibration/index.ts'

/** A pure computation as the command line offers it: one JSON object in, one out, or a refusal. */
export interface Computation {
  /** as typed: lower case, words joined by hyphens */
  name: string
  title: string
  /** publication the law is taken from */
  source: string
  /** unit of each field, input and output */
  units: Readonly<Record<string, string>>
  input: z.ZodType
  output: z.ZodType
  run(input: never): unknown
}

/** Ties the types of `run` to the schemas. */
export function defineComputation<Input extends z.ZodType, Output extends z.ZodType>(computation: {
  name: string
  title: string
  source: string
  units: Readonly<Record<string, string>>
  input: Input
  output: Output
  run(input: z.output<Input>): z.input<Output> | Refusal
}): Computation {
  return computation as unknown as Computation
}

/** Passes a refusal on, or shapes the answer. */
export function answer<Given, Output>(
  given: Given | Refusal,
  shape: (given: Given) => Output,
): Output | Refusal {
  return isRefusal(given) ? given : shape(given)
}

/** JSON has no infinity: endless degrees of freedom are written as null. */
export function finiteOrNull(number: number): number | null {
  return Number.isFinite(number) ? number : null
}
