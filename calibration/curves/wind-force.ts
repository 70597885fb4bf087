import { WIND_FORCES, type WindForce } from '../references/beaufort.ts'
import { type Refusal, refuse } from '../refusal.ts'

/**
 * Wind speed at 10 m over open ground to force on the Beaufort scale, 0–12.
 * The printed limits have gaps of 0.1 m/s (0.2 | 0.3), so the speed is rounded to 0.1 first.
 * @param metresPerSecond  10-minute mean, 0 or more
 * @see WMO-No. 8, Guide to Instruments and Methods of Observation, Part I ch. 5
 */
export function windForce(metresPerSecond: number): WindForce | Refusal {
  if (!Number.isFinite(metresPerSecond))
    return refuse('E_NOT_FINITE', `${metresPerSecond} m/s is not a number.`)
  if (metresPerSecond < 0)
    return refuse('E_SETTING', `A wind of ${metresPerSecond} m/s cannot be; speed is 0 or more.`)
  const rounded = Math.round(metresPerSecond * 10) / 10
  return WIND_FORCES.findLast((each) => rounded >= each.fromMetresPerSecond)!
}
