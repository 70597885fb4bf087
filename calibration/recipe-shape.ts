import { type Refusal, refuse } from './refusal.ts'

/** What a field must be: a number, a text, or a list of objects with fields of their own. */
type Shape = 'number' | 'text' | 'choice' | { each: Readonly<Record<string, Shape>> }

const PH_POINT = { millivolt: 'number', temperatureCelsius: 'number' } as const
const SAMPLE = {
  signal: 'number',
  wetGram: 'number',
  dryGram: 'number',
  tinGram: 'number',
  ringCubicCentimetre: 'number',
} as const
const LIGHT_POINT = { signal: 'number', lux: 'number' } as const

/** Fields without which a kind cannot be fitted. */
const REQUIRED: Readonly<Record<string, Readonly<Record<string, Shape>>>> = {
  'ph-electrode': { points: { each: PH_POINT } },
  'wetness-span': { drySignal: 'number', wetSignal: 'number' },
  'water-content-fit': { samples: { each: SAMPLE } },
  permittivity: {},
  'light-counts': { sensor: 'choice' },
  'light-power': { points: { each: LIGHT_POINT } },
  'light-span': { points: { each: LIGHT_POINT } },
  'digital-temperature': {},
  thermistor: {},
  platinum: {},
  'cup-anemometer': {},
  line: { unit: 'text' },
  'already-a-value': { unit: 'text' },
}

/** Lists that may be left out, and what each of their members needs. */
const OPTIONAL_LISTS: Readonly<Record<string, Readonly<Record<string, Shape>>>> = {
  thermistor: { points: { each: { ohm: 'number', celsius: 'number' } } },
  'cup-anemometer': { pairs: { each: { hertz: 'number', metresPerSecond: 'number' } } },
  line: { points: { each: { signal: 'number', reference: 'number' } } },
}

/**
 * A survey file may hold a recipe that a hand has edited: says which field is missing or of the wrong kind.
 * @returns null when the recipe has everything its kind needs
 */
export function refuseShape(recipe: unknown): Refusal | null {
  if (typeof recipe !== 'object' || recipe === null)
    return refuse('E_RECIPE', 'A calibration recipe is an object.')
  const fields = recipe as Record<string, unknown>
  const kind = String(fields['kind'])
  const required = REQUIRED[kind]
  if (required === undefined) return refuse('E_RECIPE', `There is no calibration of kind “${kind}”.`)
  const given = Object.entries(OPTIONAL_LISTS[kind] ?? {}).filter(([field]) => fields[field] !== undefined)
  const missing = firstWrong(fields, { ...required, ...Object.fromEntries(given) })
  return missing === null ? null : refuse('E_RECIPE', `The ${kind} recipe needs ${missing}. Enter it again.`)
}

function firstWrong(fields: Record<string, unknown>, shapes: Readonly<Record<string, Shape>>): string | null {
  for (const [field, shape] of Object.entries(shapes)) {
    const found = fields[field]
    if (shape === 'number' && typeof found !== 'number') return `a number as “${field}”`
    if (shape === 'text' && (typeof found !== 'string' || found === '')) return `a text as “${field}”`
    if (shape === 'choice' && typeof found !== 'string') return `“${field}”`
    if (typeof shape !== 'object') continue
    if (!Array.isArray(found)) return `a list as “${field}”`
    for (const [index, member] of found.entries()) {
      const wrong =
        typeof member === 'object' && member !== null ? firstWrong(member, shape.each) : 'an object'
      if (wrong !== null) return `${wrong} in “${field}[${index}]”`
    }
  }
  return null
}
