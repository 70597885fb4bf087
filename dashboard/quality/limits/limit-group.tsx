import type { LimitFault } from './fault-places.ts'
import { LimitField } from './limit-field.tsx'
import { limitLabel, writingOf } from './limit-words.ts'
import { joined } from './read-written.ts'
import type { LimitSchema } from './schema.ts'
import type { WrittenGroup } from './written.ts'

/** A field for each limit, made from the schema the hub gives. */
export function LimitGroup(props: {
  schema: LimitSchema
  typed: WrittenGroup
  unit: string
  path: string
  faults: readonly LimitFault[]
  onTyped: (typed: WrittenGroup) => void
}) {
  const { schema, typed, unit, path, faults, onTyped } = props
  return (
    <div class="limit-fields">
      {Object.entries(schema.properties ?? {}).map(([name, each]) => (
        <LimitField
          key={name}
          schema={each}
          label={limitLabel(name)}
          typed={typed.fields[name] ?? null}
          writing={writingOf(name, unit, typed.fields)}
          unit={unit}
          path={joined(path, name)}
          faults={faults}
          onTyped={(next) => onTyped({ fields: { ...typed.fields, [name]: next } })}
        />
      ))}
    </div>
  )
}
