import { bufferCelsius, bufferNames } from './technical-buffers.ts'

/** What every board of the class has. */
export const channels = ['ph', 'moisture', 'light', 'temperature', 'wind'] as const
export type Channel = (typeof channels)[number]

/** What a probe is put into: a buffer, the soil, the wind of a fan … */
export interface Medium {
  readonly where: string
  readonly celsius?: number
  readonly lux?: number
  readonly metresPerSecond?: number
}

export interface MediumSetting {
  readonly key: 'celsius' | 'lux' | 'metresPerSecond'
  readonly low: number
  readonly high: number
  /** when none is given; without it, one has to be */
  readonly usual?: number
}

/** All beakers stand side by side: a room in the morning. */
const beaker: MediumSetting = { key: 'celsius', ...bufferCelsius, usual: 17 }

/** What there is for each probe, and what has to be known about it. `soil` is the probe's place at its quadrat. */
export const mediaFor: Readonly<Record<Channel, Readonly<Record<string, MediumSetting | null>>>> = {
  ph: {
    ...Object.fromEntries(bufferNames.map((name) => [name, beaker])),
    water: beaker,
    air: null,
    soil: null,
  },
  moisture: { 'air-dry': null, saturated: null, air: null, soil: null },
  light: { dark: null, lamp: { key: 'lux', low: 0, high: 120_000 }, soil: null },
  temperature: { ice: null, bath: { key: 'celsius', low: -10, high: 85 }, soil: null },
  wind: { still: null, fan: { key: 'metresPerSecond', low: 0, high: 40 }, soil: null },
}

export const soil: Medium = { where: 'soil' }

/** Where a class that begins on the bench finds its probes. */
export const benchAtFirst: Readonly<Record<Channel, Medium>> = {
  ph: { where: 'buffer-7', celsius: 17 },
  moisture: { where: 'air-dry' },
  light: { where: 'dark' },
  temperature: { where: 'ice' },
  wind: { where: 'still' },
}

/** Buffers and the water for rinsing: the class holds electrode and thermometer in them together. */
export function isBeaker(medium: Medium): boolean {
  return mediaFor.ph[medium.where] === beaker
}
