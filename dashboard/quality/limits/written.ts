import { type WrittenDuration, writtenDuration } from './durations.ts'
import { type Writing, writingOf } from './limit-words.ts'
import { writtenNumber } from './numbers.ts'
import { type LimitSchema, shapeOf } from './schema.ts'

/** Limits as they are typed: numbers are text, and what is half typed is kept. */
export type Written =
  | string
  | boolean
  | null
  | WrittenDuration
  | WrittenSpan
  | readonly NamedSpan[]
  | WrittenGroup
export interface WrittenSpan {
  low: string
  high: string
}
export interface NamedSpan extends WrittenSpan {
  name: string
}
export interface WrittenGroup {
  fields: Readonly<Record<string, Written>>
}

const BLANK: WrittenSpan = { low: '', high: '' }

type Stored = unknown
type Beside = Readonly<Record<string, unknown>>

function record(stored: Stored): Beside {
  return typeof stored === 'object' && stored !== null ? (stored as Beside) : {}
}

/**
 * Limits as stored to limits as typed; what is not there is left blank, to be filled in.
 * @param unit  of the quantity
 */
export function writtenOf(schema: LimitSchema, stored: Stored, unit: string): WrittenGroup {
  return group(schema, stored, unit)
}

function group(schema: LimitSchema, stored: Stored, unit: string): WrittenGroup {
  const values = record(stored)
  return {
    fields: Object.fromEntries(
      Object.entries(schema.properties ?? {}).map(([name, each]) => [
        name,
        written(each, values[name], unit, writingOf(name, unit, values)),
      ]),
    ),
  }
}

function written(schema: LimitSchema, stored: Stored, unit: string, writing: Writing): Written {
  const shape = shapeOf(schema)
  const number = (value: Stored) => (typeof value === 'number' ? writtenNumber(value, writing.shift) : '')
  const span = (value: Stored): WrittenSpan =>
    Array.isArray(value) ? { low: number(value[0]), high: number(value[1]) } : BLANK
  switch (shape.kind) {
    case 'number':
      if (!writing.isDuration) return number(stored)
      return typeof stored === 'number' ? writtenDuration(stored) : { number: '', unit: 'min' }
    case 'yes or no':
      return stored === true
    case 'choice':
      return typeof stored === 'string' ? stored : (shape.choices[0] ?? '')
    case 'text':
      return typeof stored === 'string' ? stored : ''
    case 'span':
      return span(stored)
    case 'numbers':
      return Array.isArray(stored) ? stored.map(number).join(' ') : ''
    case 'group':
      return group(schema, stored, unit)
    case 'spans by name': {
      const names = shape.names ?? Object.keys(record(stored))
      return names.map((name) => ({ name, ...span(record(stored)[name]) }))
    }
    case 'maybe':
      return stored === null || stored === undefined ? null : written(shape.inner, stored, unit, writing)
    default:
      return JSON.stringify(stored ?? null)
  }
}

/** A field that is switched on begins blank. */
export function blankOf(schema: LimitSchema, unit: string, writing: Writing): Written {
  return written(schema, undefined, unit, writing)
}
