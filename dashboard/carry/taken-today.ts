import type { SpotValue } from '../../hub/contract/spot.ts'
import { dayText } from '../format-time.ts'

/**
 * What this group, or this phone when the group is open, has taken on the present day of the site, newest first.
 * @param nowMs  hub time
 */
export function takenToday(
  spots: readonly SpotValue[],
  group: string | null,
  fromHere: readonly string[],
  nowMs: number,
  zone: string | undefined,
): SpotValue[] {
  const today = dayText(nowMs, zone)
  return spots.filter(({ spot }) => {
    const isOurs = fromHere.includes(spot.id) || (group !== null && spot.by === group)
    return isOurs && dayText(Date.parse(spot.replicates[0]!.from), zone) === today
  })
}
