import {
  BUFFER_SETS,
  bufferPh,
  type Captured,
  type Field,
  type Fields,
  isRefusal,
  type Procedure,
} from '../../../calibration/index.ts'

/** What is typed with a point, as text. A temperature that is not there follows the thermometer. */
export type Entry = Readonly<Record<string, string>>

/** Stays from one point to the next; everything else is to be said anew. */
const STAYS = new Set(['bufferSet', 'celsius', 'tinGram', 'ringCubicCentimetre'])

/** Weighed a day after the signal was read. */
const LATER = new Set(['wetGram', 'dryGram', 'tinGram'])

export function startEntry(fields: readonly Field[], remembered: Entry = {}): Entry {
  return Object.fromEntries(
    fields.flatMap(({ name, start }) => {
      const value = remembered[name] ?? start
      return value === undefined ? [] : [[name, value]]
    }),
  )
}

/** The entry for the point after this one: a choice with two ends moves on to the other. */
export function entryForNext(
  procedure: Pick<Procedure, 'perPoint'>,
  last: Entry,
  points: readonly Pick<Captured, 'fields'>[],
): Entry {
  const next: Record<string, string> = {}
  for (const { name, choices, start } of procedure.perPoint) {
    if (STAYS.has(name) && last[name] !== undefined) next[name] = last[name]
    else if (name === 'end' && choices) {
      const open = choices.find(({ value }) => !points.some(({ fields }) => fields[name] === value))
      if (open) next[name] = open.value
    } else if (start !== undefined) next[name] = start
  }
  return next
}

/** Entry without empty places and spaces about it; the temperature of the moment fills its own. */
export function fieldsOf(fields: readonly Field[], entry: Entry, celsius: number | null = null): Fields {
  return Object.fromEntries(
    fields.flatMap(({ name }): [string, string][] => {
      const typed = (entry[name] ?? '').trim()
      if (typed !== '') return [[name, typed]]
      return name === 'temperatureCelsius' && celsius !== null && entry[name] === undefined
        ? [[name, celsius.toFixed(1)]]
        : []
    }),
  )
}

/** What is wrong with each field, in words. */
export function fieldFaults(
  fields: readonly Field[],
  entered: Fields,
  mayFollow = false,
): Record<string, string> {
  const faults: Record<string, string> = {}
  for (const { name, kind, isRequired } of fields) {
    const text = entered[name]
    if (text === undefined) {
      if (isRequired && !(mayFollow && LATER.has(name)))
        faults[name] = kind === 'choice' ? 'Choose one.' : 'Needed.'
    } else if (kind === 'number' && !Number.isFinite(Number(String(text).replace(',', '.'))))
      faults[name] = 'A number is needed here.'
  }
  return faults
}

/** Values to take with one tap. */
export function suggestionsFor(field: Field, entry: Entry): { value: string; label: string }[] {
  if (field.name === 'buffer') {
    const set = BUFFER_SETS.find(({ set }) => set === entry['bufferSet'])
    return (set?.buffers ?? []).map(({ name }) => ({ value: name, label: name }))
  }
  if (field.name === 'celsius') return [{ value: '0', label: '0, melting ice' }]
  if (field.name === 'lux') return [{ value: '0', label: '0, covered' }]
  if (field.name === 'metresPerSecond') return [{ value: '0', label: '0, still air' }]
  return []
}

/** Why the reference cannot be said yet; null when it can, or when nothing but a field is missing. */
export function whyNoReference(procedure: Procedure, entered: Fields): string | null {
  if (procedure.reference(entered) !== null) return null
  const { bufferSet, buffer, temperatureCelsius } = entered
  if (bufferSet !== undefined && buffer === undefined) return 'Say which buffer it is, or type its pH.'
  if (bufferSet === undefined || temperatureCelsius === undefined) return null
  const found = bufferPh(
    String(bufferSet),
    String(buffer),
    Number(String(temperatureCelsius).replace(',', '.')),
  )
  return isRefusal(found) ? found.message : null
}

/** @param today  `2026-06-12` at the site */
export function isPastUse(expires: string | number | undefined, today: string): boolean {
  return expires !== undefined && expires !== '' && String(expires) < today
}
