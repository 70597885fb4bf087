import { numberText } from '../../format.ts'
import type { DurationUnit } from './durations.ts'
import { choiceLabel, limitLabel, nameLabel, type Writing, writingOf } from './limit-words.ts'
import { readWrittenNumber } from './numbers.ts'
import { type LimitSchema, shapeOf } from './schema.ts'
import type { NamedSpan, Written, WrittenGroup, WrittenSpan } from './written.ts'

export interface LimitLine {
  name: string
  label: string
  text: string
}

/** Limits in words, a line each, to be read and not typed. */
export function limitLines(schema: LimitSchema, typed: WrittenGroup, unit: string): LimitLine[] {
  return Object.entries(schema.properties ?? {}).map(([name, each]) => ({
    name,
    label: limitLabel(name),
    text: textOf(each, typed.fields[name] ?? null, unit, writingOf(name, unit, typed.fields)),
  }))
}

function textOf(schema: LimitSchema, typed: Written, unit: string, writing: Writing): string {
  const withUnit = (text: string) =>
    writing.unit === '' || writing.unit === '°' ? text + writing.unit : `${text} ${writing.unit}`
  const span = ({ low, high }: WrittenSpan) =>
    low === '' && high === '' ? 'not given' : withUnit(`${signed(low)} to ${signed(high)}`)
  const shape = shapeOf(schema)
  switch (shape.kind) {
    case 'number': {
      if (!writing.isDuration) return typed === '' ? 'not given' : withUnit(signed(typed as string))
      const duration = typed as { number: string; unit: DurationUnit }
      return duration.number === '' ? 'not given' : `${signed(duration.number)} ${duration.unit}`
    }
    case 'yes or no':
      return typed === true ? 'yes' : 'no'
    case 'choice':
      return choiceLabel(typed as string)
    case 'span':
      return span(typed as WrittenSpan)
    case 'numbers':
      return withUnit((typed as string).split(' ').map(signed).join(', '))
    case 'group':
      return limitLines(schema, typed as WrittenGroup, unit)
        .map(({ label, text }) => `${label}: ${text}`)
        .join('; ')
    case 'spans by name': {
      const given = (typed as readonly NamedSpan[]).filter(({ low, high }) => low !== '' || high !== '')
      return given.length === 0
        ? 'none'
        : given.map((each) => `${nameLabel(each.name)} ${span(each)}`).join('; ')
    }
    case 'maybe':
      return typed === null ? 'none' : textOf(shape.inner, typed, unit, writing)
    default:
      return String(typed)
  }
}

/** What is typed, as a number is written elsewhere on the pages. */
function signed(text: string): string {
  const value = readWrittenNumber(text, 0)
  return value === null ? text : numberText(value, /\.(\d+)$/.exec(text)?.[1]?.length ?? 0)
}
