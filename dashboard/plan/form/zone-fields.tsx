import { Field } from '../../parts/field.tsx'
import { readNumber } from '../../read-number.ts'
import type { FieldFaults } from './field-reader.ts'
import type { ZoneForm } from './plan-form.ts'

/** Where shade ends and open ground begins: one line a zone, from the zero mark on. */
export function ZoneFields(props: {
  zones: readonly ZoneForm[]
  lengthMetres: string
  /** such as `transects[0].zones` */
  path: string
  faults: FieldFaults
  onZones: (zones: ZoneForm[]) => void
}) {
  const { zones, path, faults, onZones } = props
  const length = readNumber(props.lengthMetres) ?? 20
  const set = (index: number, part: Partial<ZoneForm>) =>
    onZones(zones.map((zone, at) => (at === index ? { ...zone, ...part } : zone)))
  const usual = () => {
    const [first, second] = [Math.round(length * 0.4), Math.round(length * 0.6)]
    const ends = [0, first, second, length].map(String)
    onZones(
      ['shade', 'edge', 'open'].map((name, index) => ({
        name,
        fromMetres: ends[index] ?? '',
        toMetres: ends[index + 1] ?? '',
      })),
    )
  }
  return (
    <div>
      {zones.map((zone, index) => (
        <div class="zone-line" key={index}>
          <Field
            label="Zone"
            value={zone.name}
            suggestions={['shade', 'edge', 'open']}
            onValue={(name) => set(index, { name })}
            wrong={faults[`${path}[${index}].name`] ?? faults[`${path}[${index}]`]}
          />
          {(['fromMetres', 'toMetres'] as const).map((field) => (
            <Field
              key={field}
              label={field === 'fromMetres' ? 'from, m' : 'to, m'}
              kind="number"
              value={zone[field]}
              onValue={(metres) => set(index, { [field]: metres })}
              wrong={faults[`${path}[${index}].${field}`]}
            />
          ))}
          <button
            type="button"
            class="plain take"
            aria-label={`Leave out zone ${zone.name}`}
            onClick={() => onZones(zones.filter((_, at) => at !== index))}
          >
            Leave out
          </button>
        </div>
      ))}
      <p class="form-ways">
        {zones.length === 0 && (
          <button type="button" class="plain" onClick={usual}>
            Mark shade, edge and open
          </button>
        )}
        <button
          type="button"
          class="plain"
          onClick={() =>
            onZones([
              ...zones,
              { name: '', fromMetres: zones.at(-1)?.toMetres ?? '0', toMetres: String(length) },
            ])
          }
        >
          Add a zone
        </button>
      </p>
    </div>
  )
}
