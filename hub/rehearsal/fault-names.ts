/** What can go wrong in the field. */
export const fieldFaultNames = [
  'unplug',
  'repeat',
  'garbage',
  'dead-clock',
  'dry-bulb',
  'saturated',
  'two-names',
] as const

/** What can go wrong on the bench, where the class calibrates. */
export const benchFaultNames = ['swapped', 'stale-10', 'cracked-bulb'] as const

export type FaultName = (typeof fieldFaultNames)[number] | (typeof benchFaultNames)[number]

/**
 * Reads `--faults`, such as `unplug,swapped`. `all` is all of the field; those of the bench are asked for by name.
 * @throws RangeError on a name that is none
 */
export function faultsFrom(text: string): ReadonlySet<FaultName> {
  const wanted = text.split(',').map((name) => name.trim())
  return new Set(wanted.filter((name) => name !== '').flatMap(faultsNamed))
}

function faultsNamed(text: string): readonly FaultName[] {
  if (text === 'all') return fieldFaultNames
  const name = [...fieldFaultNames, ...benchFaultNames].find((known) => known === text)
  if (name) return [name]
  throw new RangeError(
    `--faults: “${text}” is no fault; there are ${fieldFaultNames.join(', ')} and all of these, ` +
      `and on the bench ${benchFaultNames.join(', ')}`,
  )
}
