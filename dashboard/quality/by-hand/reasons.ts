import type { Decision } from '../../../hub/contract/survey.ts'

/** What happens to the measuring of each quantity in a field; a quantity of the class's own has what happens to all. */
const LEAVE_OUT: Record<string, readonly string[]> = {
  soil_ph: ['electrode not settled yet', 'electrode rinsed or soaked', 'soil not wetted yet'],
  soil_moisture: ['air gap or stone at the probe', 'probe pulled out', 'wet electronics'],
  illuminance: ['operator’s shadow', 'leaf or drop on the dome', 'lamp or torch'],
  soil_temperature: ['tip just put in, not settled', 'sun on the probe’s head', 'warmed by a hand'],
  wind_speed: ['somebody stood in the wind', 'web or twig in the cups', 'cups turned by hand'],
}
const ALWAYS_LEAVE_OUT = ['meter being carried', 'cable pulled']

const ACCEPT: Record<string, readonly string[]> = {
  soil_moisture: ['rain began, seen by the group'],
  illuminance: ['sunfleck, seen by the group'],
  soil_temperature: ['sun came out, seen by the group'],
  wind_speed: ['gust, felt by the group'],
}
const ALWAYS_ACCEPT = ['second probe read the same', 'probe and place checked, all in order']

/** Reasons to begin with: something that was done or seen, never that a value looks wrong. */
export function reasonsFor(action: Decision['action'], quantity: string): readonly string[] {
  const [own, always] = action === 'exclude' ? [LEAVE_OUT, ALWAYS_LEAVE_OUT] : [ACCEPT, ALWAYS_ACCEPT]
  return [...(own[quantity] ?? []), ...always]
}
