import type { Channel, Medium } from './bench-media.ts'
import type { ThermometerMove } from './class-bench.ts'
import type { PutRequest } from './put-request.ts'

const probes: Readonly<Record<Channel, string>> = {
  ph: 'the pH electrode is',
  moisture: 'the moisture probe is',
  light: 'the light sensor is',
  temperature: 'the thermometer is',
  wind: 'the cups are',
}

const places: Readonly<Record<string, (medium: Medium) => string>> = {
  'buffer-4': ({ celsius }) => `in buffer 4 at ${celsius} °C`,
  'buffer-7': ({ celsius }) => `in buffer 7 at ${celsius} °C`,
  'buffer-10': ({ celsius }) => `in buffer 10 at ${celsius} °C`,
  water: ({ celsius }) => `in distilled water at ${celsius} °C`,
  air: () => 'held in the air',
  'air-dry': () => 'in air-dry soil',
  saturated: () => 'in saturated soil',
  dark: () => 'under a dark cover',
  lamp: ({ lux }) => `beside a reference meter that reads ${lux} lx`,
  ice: () => 'in crushed ice',
  bath: ({ celsius }) => `in a bath of ${celsius} °C`,
  still: () => 'in still air',
  fan: ({ metresPerSecond }) => `before a fan of ${metresPerSecond} m/s`,
}

/** `fern-1: the pH electrode is in buffer 7 at 17 °C, and the thermometer with it.` */
export function putInWords(
  { board, channel, medium }: PutRequest,
  quadrat: string,
  thermometer: ThermometerMove,
): string {
  const place = places[medium.where]?.(medium) ?? `back at ${quadrat}`
  const further = thermometer === 'joins' ? ', and the thermometer with it' : ''
  const returned = thermometer === 'returns' ? ', and the thermometer where it was before' : ''
  return `${board}: ${probes[channel]} ${place}${further}${returned}.`
}
