import type { Fields, Procedure } from '../../../calibration/index.ts'
import { siteZone } from '../../current-survey.ts'
import { ageText } from '../../format-time.ts'
import { hubMs } from '../../hub-clock.ts'
import { dayAt } from '../wall-time.ts'
import { BenchField } from './bench-field.tsx'
import { withBottle } from './bottles.ts'
import { type Entry, isPastUse, suggestionsFor } from './entries.ts'
import type { LiveTemperature } from './live-temperature.ts'

/** What is typed with each point. The temperature follows the thermometer until somebody types another. */
export function PointFields(props: {
  procedure: Procedure
  entry: Entry
  entered: Fields
  onEntry: (entry: Entry) => void
  temperature: LiveTemperature | null
  faults: Readonly<Record<string, string>>
}) {
  const { procedure, entry, entered, onEntry, temperature, faults } = props
  const nowMs = hubMs.value
  const change = (name: string, value: string) => {
    const next = { ...entry, [name]: value }
    onEntry(name === 'buffer' || name === 'bufferSet' ? withBottle(next) : next)
  }
  const follow = () => {
    const { temperatureCelsius: _typed, ...rest } = entry
    onEntry(rest)
  }
  const [main, lesser] = partFields(procedure)
  const fieldFor = (field: Procedure['perPoint'][number]) => {
    const isLive = field.name === 'temperatureCelsius' && temperature !== null
    const isFollowing = isLive && entry[field.name] === undefined
    return (
      <div key={field.name} class={`of-${field.name}`}>
        <BenchField
          field={field}
          value={isFollowing ? String(entered[field.name] ?? '') : (entry[field.name] ?? '')}
          onValue={(value) => change(field.name, value)}
          suggestions={suggestionsFor(field, entry)}
          wrong={faults[field.name]}
          note={
            isFollowing
              ? `live from ${temperature.from}, ${ageText(temperature.atMs, nowMs)}`
              : isLive
                ? `typed; the thermometer reads ${temperature.celsius.toFixed(1)} °C`
                : undefined
          }
          warning={warningOf(field.name, entry, entered, nowMs)}
        />
        {isLive && !isFollowing && (
          <button type="button" class="plain bench-small" onClick={follow}>
            Follow the thermometer again
          </button>
        )}
      </div>
    )
  }
  return (
    <>
      <div class="bench-fields">{main.map(fieldFor)}</div>
      {lesser.length > 0 && (
        <details class="bench-more" open={lesser.some(({ name }) => name === 'expires' && entry[name])}>
          <summary>The bottle: set, lot, use-by date</summary>
          <div class="bench-fields">{lesser.map(fieldFor)}</div>
        </details>
      )}
    </>
  )
}

const OF_THE_BOTTLE = new Set(['bufferSet', 'ph', 'lot', 'expires'])

/** What changes from point to point first; what stands on the bottle after it. */
function partFields({ perPoint }: Procedure) {
  return [
    perPoint.filter(({ name }) => !OF_THE_BOTTLE.has(name)),
    perPoint.filter(({ name }) => OF_THE_BOTTLE.has(name)),
  ] as const
}

/** A beaker on a bench is neither iced nor hot: a thermometer that says so stands somewhere else. */
const BENCH_CELSIUS = { low: 5, high: 35 }

function warningOf(name: string, entry: Entry, entered: Fields, nowMs: number): string | undefined {
  if (name === 'expires' && isPastUse(entry['expires'], dayAt(nowMs, siteZone.value)))
    return 'Past its use-by date: take a fresh bottle. A point kept with it says so.'
  if (name !== 'temperatureCelsius' || entered[name] === undefined) return undefined
  const celsius = Number(String(entered[name]).replace(',', '.'))
  return celsius < BENCH_CELSIUS.low || celsius > BENCH_CELSIUS.high
    ? 'Is the thermometer in this very beaker?'
    : undefined
}
