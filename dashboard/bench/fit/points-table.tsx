import { useState } from 'preact/hooks'
import type { Procedure } from '../../../calibration/index.ts'
import { siteZone } from '../../current-survey.ts'
import { minuteText } from '../../format-time.ts'
import { BenchField } from '../hold/bench-field.tsx'
import { isPastUse, suggestionsFor } from '../hold/entries.ts'
import { signalWithUnit } from '../hold/signal-digits.ts'
import { dayAt } from '../wall-time.ts'
import type { KeptPoint } from './draft.ts'
import { readingDigits, withValueUnit } from './value-digits.ts'

/** The points kept so far. Each can be changed, set aside as a check, or taken out and put back. */
export function PointsTable(props: {
  procedure: Procedure
  points: readonly KeptPoint[]
  signalUnit: string
  valueUnit: string
  onPoints: (points: readonly KeptPoint[]) => void
}) {
  const { procedure, points, onPoints } = props
  const [changing, setChanging] = useState<number | null>(null)
  const [removed, setRemoved] = useState<KeptPoint | null>(null)
  if (points.length === 0 && removed === null) return null
  const replace = (point: KeptPoint) =>
    onPoints(points.map((each) => (each.key === point.key ? point : each)))
  return (
    <section class="kept">
      <h2>Points kept</h2>
      <ol class="kept-list">
        {points.map((point, index) => (
          <li key={point.key} class={point.role === 'check' ? 'is-check' : ''} data-point={index + 1}>
            <p class="kept-line">
              <b class="figures">{signalWithUnit(point.signal, props.signalUnit)}</b>
              <span>{referenceText(procedure, point, props.valueUnit)}</span>
              <small>{heldText(point)}</small>
              {marksOf(point).map((mark) => (
                <small key={mark} class="kept-mark">
                  {mark}
                </small>
              ))}
            </p>
            <p class="kept-ways">
              <label class="bench-tick">
                <input
                  type="checkbox"
                  checked={point.role === 'check'}
                  onChange={(event) =>
                    replace({ ...point, role: event.currentTarget.checked ? 'check' : 'fit' })
                  }
                />
                <span>only a check</span>
              </label>
              <button
                type="button"
                class="plain bench-small"
                aria-expanded={changing === point.key}
                onClick={() => setChanging(changing === point.key ? null : point.key)}
              >
                {changing === point.key ? 'Done' : 'Change'}
              </button>
              <button
                type="button"
                class="plain bench-small"
                aria-label={`Take out point ${index + 1}`}
                onClick={() => {
                  onPoints(points.filter((each) => each !== point))
                  setRemoved(point)
                }}
              >
                Take out
              </button>
            </p>
            {changing === point.key && (
              <div class="bench-fields">
                {procedure.perPoint.map((field) => (
                  <BenchField
                    key={field.name}
                    field={field}
                    value={String(point.fields[field.name] ?? '')}
                    suggestions={suggestionsFor(field, {
                      bufferSet: String(point.fields['bufferSet'] ?? ''),
                    })}
                    onValue={(value) => replace({ ...point, fields: withField(point, field.name, value) })}
                  />
                ))}
              </div>
            )}
          </li>
        ))}
      </ol>
      {removed && (
        <p class="kept-back" role="status">
          One point is out.{' '}
          <button
            type="button"
            class="plain bench-small"
            onClick={() => {
              onPoints([...points, removed].sort((one, other) => one.key - other.key))
              setRemoved(null)
            }}
          >
            Put it back
          </button>
        </p>
      )}
    </section>
  )
}

function withField({ fields }: KeptPoint, name: string, value: string): KeptPoint['fields'] {
  const { [name]: _before, ...rest } = fields
  return value.trim() === '' ? rest : { ...rest, [name]: value }
}

function referenceText(procedure: Procedure, point: KeptPoint, unit: string): string {
  const reference = procedure.reference(point.fields)
  if (reference === null) return 'reference still to be filled in'
  const value = withValueUnit(readingDigits(reference.value, unit), unit)
  const celsius = point.fields['temperatureCelsius']
  return `${value}, ${reference.name}${celsius === undefined ? '' : `, at ${celsius} °C`}`
}

function heldText({ n, secondsToSteady, atMs }: KeptPoint): string {
  const settled = secondsToSteady === null ? '' : `, steady after ${secondsToSteady} s`
  return `mean of ${n}${settled}, at ${minuteText(atMs, siteZone.value)}`
}

function marksOf({ isForced, fields, atMs }: KeptPoint): string[] {
  return [
    ...(isForced ? ['kept while it still moved'] : []),
    ...(isPastUse(fields['expires'], dayAt(atMs, siteZone.value)) ? ['bottle past its use-by date'] : []),
    ...(fields['lot'] === undefined ? [] : [`lot ${fields['lot']}`]),
  ]
}
