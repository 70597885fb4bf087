import type { SetProbeRole } from '../../../hub/contract/changes.ts'
import type { Probe } from '../../../hub/contract/survey.ts'

/** What a probe is there for. */
export type RoleName = 'standing' | 'carried' | 'open-sky' | 'wind-mast'

export const roleWords: Record<RoleName, string> = {
  standing: 'stands at a quadrat',
  carried: 'is carried from quadrat to quadrat',
  'open-sky': 'stands under the open sky, for all quadrats',
  'wind-mast': 'stands on the wind mast, for all quadrats',
}

export function roleOf(probe: Probe): RoleName {
  return probe.reference ?? (probe.isCarried ? 'carried' : 'standing')
}

/** Roles that make sense for it: a pH meter is no mast. One it has stays in the list, whatever it measures. */
export function rolesFor(probe: Probe): RoleName[] {
  const fitting: RoleName[] = ['standing', 'carried']
  if (probe.quantity === 'illuminance') fitting.push('open-sky')
  if (probe.quantity === 'wind_speed') fitting.push('wind-mast')
  const has = roleOf(probe)
  return fitting.includes(has) ? fitting : [...fitting, has]
}

export function roleWish(role: RoleName): SetProbeRole {
  return {
    isCarried: role === 'carried',
    reference: role === 'open-sky' || role === 'wind-mast' ? role : null,
  }
}
