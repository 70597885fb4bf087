/** As much of JSON Schema as the hub's OpenAPI text uses. */
export interface Schema {
  type?: string | string[]
  enum?: unknown[]
  const?: unknown
  format?: string
  pattern?: string
  minLength?: number
  minimum?: number
  maximum?: number
  exclusiveMinimum?: number
  minItems?: number
  items?: Schema
  properties?: Record<string, Schema>
  required?: string[]
  additionalProperties?: boolean | Schema
  anyOf?: Schema[]
  oneOf?: Schema[]
}

type Chance = () => number

/** What strangers send in place of a word. */
export const nastyWords: readonly string[] = [
  '',
  ' ',
  '..',
  '../../../../etc/passwd',
  '..\\..\\windows',
  '%2e%2e%2f',
  '%00',
  'a\0b',
  '__proto__',
  'constructor',
  'toString',
  '<img src=x onerror=alert(1)>',
  '"><script>alert(1)</script>',
  '=HYPERLINK("http://evil.example")',
  'x\r\nset-cookie: a=b',
  '\u202Egnp.exe',
  '\uD800',
  '💧'.repeat(50),
  '(a+)+$',
  "'; DROP TABLE readings; --",
  '9'.repeat(400),
  'NaN',
  '-0',
  '1e999',
  'x'.repeat(10_000),
]
const nastyNumbers = [0, -1, 1.5, 1e308, -1e308, 2 ** 53, -(2 ** 31), 5e-324]
const nastyOthers = [null, true, [], {}, [[[[[]]]]], { __proto__: 1 }, '']

/** Words that mean something to the survey that is asked about, by the name of the field. */
export type Words = Readonly<Record<string, readonly string[]>>

export function pick<T>(list: readonly T[], chance: Chance): T {
  return list[Math.floor(chance() * list.length)]!
}

/**
 * A value as a schema describes it, wrong in a place or two.
 * @param wrong  how likely each part is replaced by something else, 0 to 1
 */
export function fromSchema(schema: Schema, chance: Chance, words: Words, wrong: number, name = ''): unknown {
  if (chance() < wrong)
    return pick<unknown>(
      [pick(nastyWords, chance), pick(nastyNumbers, chance), pick(nastyOthers, chance)],
      chance,
    )
  const choices = schema.anyOf ?? schema.oneOf
  if (choices) return fromSchema(pick(choices, chance), chance, words, wrong, name)
  if ('const' in schema) return schema.const
  if (schema.enum) return pick(schema.enum, chance)
  const type = Array.isArray(schema.type) ? pick(schema.type, chance) : schema.type
  switch (type) {
    case 'object':
      return objectOf(schema, chance, words, wrong)
    case 'array': {
      const length = Math.max(schema.minItems ?? 0, Math.floor(chance() * 4))
      return Array.from({ length }, () => fromSchema(schema.items ?? {}, chance, words, wrong, name))
    }
    case 'integer':
    case 'number': {
      const least = schema.minimum ?? schema.exclusiveMinimum ?? -10
      const value = least + chance() * (Math.min(schema.maximum ?? least + 100, least + 1000) - least)
      return type === 'integer' ? Math.floor(value) : value
    }
    case 'boolean':
      return chance() < 0.5
    case 'null':
      return null
    default:
      return wordOf(schema, chance, words, name)
  }
}

function objectOf(schema: Schema, chance: Chance, words: Words, wrong: number): Record<string, unknown> {
  const made: Record<string, unknown> = {}
  for (const [key, of] of Object.entries(schema.properties ?? {})) {
    const isKept = schema.required?.includes(key) ? chance() >= wrong / 2 : chance() < 0.5
    if (isKept) made[key] = fromSchema(of, chance, words, wrong, key)
  }
  if (typeof schema.additionalProperties === 'object')
    for (const key of [pick(nastyWords, chance), 'Q1'])
      made[key] = fromSchema(schema.additionalProperties, chance, words, wrong, key)
  if (chance() < wrong / 2) made[pick(nastyWords, chance)] = pick(nastyOthers, chance)
  return made
}

function wordOf(schema: Schema, chance: Chance, words: Words, name: string): string {
  const known = words[name]
  if (known) return pick(known, chance)
  if (schema.format === 'date-time')
    return pick(['2026-06-12T09:00:00Z', '2026-06-12T09:01:00+02:00', '0001-01-01T00:00:00Z'], chance)
  if (schema.format === 'date') return '2026-06-12'
  return pick(['a-word-1', 'because of G3', '7'], chance)
}
