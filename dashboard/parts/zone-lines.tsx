import { readNumber } from '../quadrat-distances.ts'
import type { SetUpFaults } from '../set-up-faults.ts'
import type { SetUpForm } from '../set-up-form.ts'
import { Field } from './field.tsx'

type Zones = SetUpForm['zones']

/** Where shade ends and open ground begins: one line a zone, from the zero mark on. */
export function ZoneLines(props: {
  zones: Zones
  length: string
  faults: SetUpFaults
  onZones: (zones: Zones) => void
}) {
  const { zones, faults, onZones } = props
  const length = readNumber(props.length) ?? 20
  const set = (index: number, part: Partial<Zones[number]>) =>
    onZones(zones.map((zone, at) => (at === index ? { ...zone, ...part } : zone)))
  const usual = () => {
    const [first, second] = [Math.round(length * 0.4), Math.round(length * 0.6)]
    onZones([
      { name: 'shade', from: '0', to: String(first) },
      { name: 'edge', from: String(first), to: String(second) },
      { name: 'open', from: String(second), to: String(length) },
    ])
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
            wrong={faults[`zone ${index}`]}
          />
          <Field label="from, m" kind="number" value={zone.from} onValue={(from) => set(index, { from })} />
          <Field label="to, m" kind="number" value={zone.to} onValue={(to) => set(index, { to })} />
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
          onClick={() => onZones([...zones, { name: '', from: zones.at(-1)?.to ?? '0', to: String(length) }])}
        >
          Add a zone
        </button>
      </p>
    </div>
  )
}
