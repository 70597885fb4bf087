/** What can be made to go wrong, as named by `--faults`. */
export const faultNames = [
  'unplug',
  'repeat',
  'garbage',
  'dead-clock',
  'dry-bulb',
  'saturated',
  'two-names',
] as const
export type FaultName = (typeof faultNames)[number]

/** @throws RangeError on a name that is none */
export function faultsFrom(text: string): ReadonlySet<FaultName> {
  const wanted = text.split(',').map((name) => name.trim())
  if (wanted.includes('all')) return new Set(faultNames)
  return new Set(wanted.filter((name) => name !== '').map(faultNamed))
}

function faultNamed(text: string): FaultName {
  const name = faultNames.find((known) => known === text)
  if (!name)
    throw new RangeError(`--faults: “${text}” is no fault; there are ${faultNames.join(', ')} and all`)
  return name
}
