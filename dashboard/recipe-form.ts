import type { AddCalibration } from '../hub/contract/changes.ts'

type Recipe = AddCalibration['recipe']

export interface RecipeField {
  name: string
  label: string
  /** may be filled in from the signal of this moment */
  isSignal?: boolean
  initial?: string
  choices?: readonly { value: string; label: string }[]
}

/** One way to calibrate that a page can take down: its fields, and the recipe they make. */
export interface RecipeKind {
  kind: string
  label: string
  /** quantities it is for; all when not said */
  quantities?: readonly string[]
  fields: readonly RecipeField[]
  recipe: (entered: Record<string, string>, channelUnit: string) => Recipe
}

const number = (text: string | undefined) => Number((text ?? '').trim().replace(',', '.'))

const buffers = ['4', '7', '10'].map((value) => ({ value, label: `pH ${value}` }))

const bufferPoint = (entered: Record<string, string>, which: 1 | 2) => ({
  bufferSet: 'technical',
  buffer: entered[`buffer${which}`] ?? '',
  temperatureCelsius: number(entered[`temperature${which}`]),
  millivolt: number(entered[`millivolt${which}`]),
})

export const recipeKinds: readonly RecipeKind[] = [
  {
    kind: 'ph-electrode',
    label: 'two buffers',
    quantities: ['soil_ph'],
    fields: [
      { name: 'buffer1', label: 'First buffer', initial: '7', choices: buffers },
      { name: 'temperature1', label: 'Temperature, °C' },
      { name: 'millivolt1', label: 'Signal, mV', isSignal: true },
      { name: 'buffer2', label: 'Second buffer', initial: '4', choices: buffers },
      { name: 'temperature2', label: 'Temperature, °C' },
      { name: 'millivolt2', label: 'Signal, mV', isSignal: true },
    ],
    recipe: (entered) => ({
      kind: 'ph-electrode',
      points: [bufferPoint(entered, 1), bufferPoint(entered, 2)],
    }),
  },
  {
    kind: 'wetness-span',
    label: 'from air-dry to saturated',
    quantities: ['soil_moisture'],
    fields: [
      { name: 'dry', label: 'Signal in air-dry soil', isSignal: true },
      { name: 'wet', label: 'Signal in saturated soil', isSignal: true },
    ],
    recipe: (entered) => ({
      kind: 'wetness-span',
      drySignal: number(entered['dry']),
      wetSignal: number(entered['wet']),
    }),
  },
  {
    kind: 'light-counts',
    label: 'counts of a BH1750 light sensor',
    quantities: ['illuminance'],
    fields: [{ name: 'factor', label: 'Side-by-side factor', initial: '1' }],
    recipe: (entered) => ({ kind: 'light-counts', sensor: 'bh1750', factor: number(entered['factor']) }),
  },
  {
    kind: 'digital-temperature',
    label: 'a digital thermometer',
    quantities: ['soil_temperature'],
    fields: [{ name: 'offset', label: 'Offset at the ice point, °C', initial: '0' }],
    recipe: (entered) => ({ kind: 'digital-temperature', offsetCelsius: number(entered['offset']) }),
  },
  {
    kind: 'cup-anemometer',
    label: 'cup factor from its sheet',
    quantities: ['wind_speed'],
    fields: [
      { name: 'offset', label: 'Offset, m/s', initial: '0.3' },
      { name: 'slope', label: 'Slope, m/s per Hz' },
    ],
    recipe: (entered) => ({
      kind: 'cup-anemometer',
      offsetMetresPerSecond: number(entered['offset']),
      slopeMetresPerSecondPerHertz: number(entered['slope']),
    }),
  },
  {
    kind: 'already-a-value',
    label: 'the board sends the value itself',
    fields: [],
    recipe: (_, unit) => ({ kind: 'already-a-value', unit }),
  },
]

export function kindsFor(quantity: string): RecipeKind[] {
  return recipeKinds.filter((kind) => kind.quantities?.includes(quantity) ?? true)
}

/** Fields that must hold a number and do not, by name. */
export function emptyFields(kind: RecipeKind, entered: Record<string, string>): string[] {
  return kind.fields
    .filter((field) => !field.choices)
    .filter(({ name }) => (entered[name] ?? '').trim() === '' || Number.isNaN(number(entered[name])))
    .map(({ name }) => name)
}

export function initialEntries(kind: RecipeKind): Record<string, string> {
  return Object.fromEntries(kind.fields.map(({ name, initial }) => [name, initial ?? '']))
}
