import type { Fault } from '../../client.ts'
import { type DurationUnit, durationMs } from './durations.ts'
import { type Writing, writingOf } from './limit-words.ts'
import { readWrittenNumber } from './numbers.ts'
import { type LimitSchema, shapeOf } from './schema.ts'
import type { NamedSpan, Written, WrittenGroup, WrittenSpan } from './written.ts'

const A_NUMBER = 'a number is missing here'

/** Limits as typed back to limits as stored, and what is wrong by path, such as `failSpan.0` or `suspect.repeats`. */
export function readWritten(
  schema: LimitSchema,
  typed: WrittenGroup,
  unit: string,
): { limits: Record<string, unknown>; faults: Fault[] } {
  const faults: Fault[] = []
  return { limits: readGroup(schema, typed, unit, '', faults), faults }
}

function readGroup(
  schema: LimitSchema,
  typed: WrittenGroup,
  unit: string,
  path: string,
  faults: Fault[],
): Record<string, unknown> {
  // a choice says what another field is measured in
  return Object.fromEntries(
    Object.entries(schema.properties ?? {}).map(([name, each]) => {
      const writing = writingOf(name, unit, typed.fields)
      return [name, read(each, typed.fields[name] ?? null, unit, writing, joined(path, name), faults)]
    }),
  )
}

export function joined(path: string, step: string | number): string {
  return path === '' ? String(step) : `${path}.${step}`
}

function read(
  schema: LimitSchema,
  typed: Written,
  unit: string,
  writing: Writing,
  path: string,
  faults: Fault[],
): unknown {
  const number = (text: string, at: string): number | null => {
    const value = readWrittenNumber(text, writing.shift)
    if (value === null) faults.push({ path: at, message: A_NUMBER })
    return value
  }
  const within = (value: number | null): number | null => {
    const message = value === null ? null : numberFault(schema, value)
    if (message !== null) faults.push({ path, message })
    return value
  }
  const span = ({ low, high }: WrittenSpan, at: string) => [
    number(low, joined(at, 0)),
    number(high, joined(at, 1)),
  ]
  const shape = shapeOf(schema)
  switch (shape.kind) {
    case 'number': {
      if (!writing.isDuration) return within(number(typed as string, path))
      const duration = typed as { number: string; unit: DurationUnit }
      const value = number(duration.number, path)
      return value === null ? null : within(durationMs(value, duration.unit))
    }
    case 'span':
      return span(typed as WrittenSpan, path)
    case 'numbers':
      return (typed as string)
        .split(/[\s;]+/)
        .filter((text) => text !== '')
        .map((text) => number(text, path))
    case 'group':
      return readGroup(schema, typed as WrittenGroup, unit, path, faults)
    case 'spans by name':
      return readNamed(typed as readonly NamedSpan[], shape.names !== null, path, span, faults)
    case 'maybe':
      return typed === null ? null : read(shape.inner, typed, unit, writing, path, faults)
    case 'unknown':
      return JSON.parse(typed as string) as unknown
    default:
      return typed
  }
}

/** What a schema has against a number, in plain words; the hub says the rest. */
function numberFault(schema: LimitSchema, value: number): string | null {
  const { minimum, maximum, exclusiveMinimum } = schema
  if (schema.type === 'integer' && !Number.isInteger(value)) return 'a whole number'
  if (exclusiveMinimum !== undefined && value <= exclusiveMinimum) return `more than ${exclusiveMinimum}`
  if (minimum !== undefined && value < minimum) return `at least ${minimum}`
  return maximum !== undefined && value > maximum ? `at most ${maximum}` : null
}

/** A line left wholly blank is no span. */
function readNamed(
  typed: readonly NamedSpan[],
  hasFixedNames: boolean,
  path: string,
  span: (typed: WrittenSpan, at: string) => (number | null)[],
  faults: Fault[],
): Record<string, (number | null)[]> {
  const spans: Record<string, (number | null)[]> = {}
  for (const each of typed) {
    if (each.low.trim() === '' && each.high.trim() === '' && (hasFixedNames || each.name.trim() === ''))
      continue
    const name = each.name.trim()
    if (name === '') faults.push({ path, message: 'a unit is missing, such as mV' })
    else if (name in spans) faults.push({ path, message: `${name} is there twice` })
    else spans[name] = span(each, joined(path, name))
  }
  return spans
}
