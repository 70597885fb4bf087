/** The part of JSON Schema that limits are described with. */
export interface LimitSchema {
  type?: 'object' | 'array' | 'number' | 'integer' | 'string' | 'boolean' | 'null'
  properties?: Record<string, LimitSchema>
  additionalProperties?: LimitSchema | boolean
  propertyNames?: LimitSchema
  prefixItems?: LimitSchema[]
  items?: LimitSchema | boolean
  anyOf?: LimitSchema[]
  enum?: string[]
  minimum?: number
  maximum?: number
  exclusiveMinimum?: number
  exclusiveMaximum?: number
}

/** What kind of field a schema is written as; `unknown` is one this page has no field for. */
export type Shape =
  | { kind: 'number'; isWhole: boolean; schema: LimitSchema }
  | { kind: 'yes or no' }
  | { kind: 'choice'; choices: readonly string[] }
  | { kind: 'text' }
  | { kind: 'span' }
  | { kind: 'numbers' }
  | { kind: 'group'; fields: readonly (readonly [name: string, schema: LimitSchema])[] }
  /** spans by a name: of a fixed list, or free ones */
  | { kind: 'spans by name'; names: readonly string[] | null }
  /** may be left away */
  | { kind: 'maybe'; inner: LimitSchema }
  | { kind: 'unknown' }

export function shapeOf(schema: LimitSchema): Shape {
  const inner = schema.anyOf?.filter(({ type }) => type !== 'null')
  if (inner?.length === 1 && schema.anyOf?.length === 2) return { kind: 'maybe', inner: inner[0]! }
  if (schema.enum) return { kind: 'choice', choices: schema.enum }
  switch (schema.type) {
    case 'number':
    case 'integer':
      return { kind: 'number', isWhole: schema.type === 'integer', schema }
    case 'boolean':
      return { kind: 'yes or no' }
    case 'string':
      return { kind: 'text' }
    case 'array':
      if (schema.prefixItems?.length === 2) return { kind: 'span' }
      return typeof schema.items === 'object' && schema.items.type === 'number'
        ? { kind: 'numbers' }
        : { kind: 'unknown' }
    case 'object': {
      if (schema.properties) return { kind: 'group', fields: Object.entries(schema.properties) }
      const each = schema.additionalProperties
      return typeof each === 'object' && shapeOf(each).kind === 'span'
        ? { kind: 'spans by name', names: schema.propertyNames?.enum ?? null }
        : { kind: 'unknown' }
    }
    default:
      return { kind: 'unknown' }
  }
}
