import type { PutProbe } from '../../../hub/contract/changes.ts'

/** Where a simulated probe can be put, and what has to be said with it. */
export interface PutPlace {
  where: string
  label: string
  amount?: { key: 'celsius' | 'lux' | 'metresPerSecond'; unit: string; usual: string }
}

const beaker = { key: 'celsius', unit: '°C', usual: '17' } as const
const soil: PutPlace = { where: 'soil', label: 'soil' }

const PLACES: Readonly<Record<string, readonly PutPlace[]>> = {
  soil_ph: [
    { where: 'buffer-7', label: 'buffer 7', amount: beaker },
    { where: 'buffer-4', label: 'buffer 4', amount: beaker },
    { where: 'buffer-10', label: 'buffer 10', amount: beaker },
    { where: 'water', label: 'rinsing water' },
    { where: 'air', label: 'air' },
    soil,
  ],
  soil_moisture: [
    { where: 'air-dry', label: 'air-dry soil' },
    { where: 'saturated', label: 'saturated soil' },
    { where: 'air', label: 'air' },
    soil,
  ],
  illuminance: [
    { where: 'dark', label: 'under a cover' },
    { where: 'lamp', label: 'under a lamp', amount: { key: 'lux', unit: 'lx', usual: '5000' } },
    soil,
  ],
  soil_temperature: [
    { where: 'ice', label: 'melting ice' },
    { where: 'bath', label: 'bath', amount: { key: 'celsius', unit: '°C', usual: '20' } },
    soil,
  ],
  wind_speed: [
    { where: 'still', label: 'still air' },
    { where: 'fan', label: 'before a fan', amount: { key: 'metresPerSecond', unit: 'm/s', usual: '4' } },
    soil,
  ],
}

export function putPlacesFor(quantity: string): readonly PutPlace[] {
  return PLACES[quantity] ?? []
}

/** Places that ask for the same thing share one line to type it on. */
export function amountsOf(places: readonly PutPlace[]): NonNullable<PutPlace['amount']>[] {
  const all = places.flatMap(({ amount }) => (amount ? [amount] : []))
  return all.filter((amount, index) => all.findIndex(({ key }) => key === amount.key) === index)
}

export function putWish(
  probe: { board: string; channel: string },
  { where, amount }: PutPlace,
  typed: Readonly<Record<string, string>>,
): PutProbe {
  const number = amount ? Number((typed[amount.key] ?? amount.usual).replace(',', '.')) : Number.NaN
  return {
    board: probe.board,
    channel: probe.channel,
    where,
    ...(amount && Number.isFinite(number) ? { [amount.key]: number } : {}),
  }
}
