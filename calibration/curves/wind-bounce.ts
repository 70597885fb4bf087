/** A second with bounce has more than twice the pulses of either neighbour, and clearly more. */
const TIMES_NEIGHBOUR = 2
const MORE_THAN_NEIGHBOUR = 6

/**
 * Seconds in which the switch probably bounced: doubled counts standing alone between two normal seconds.
 * Wind does not double and halve again within a second; the cup has inertia.
 * @param counts  pulses in each second, in order
 * @returns their indexes
 */
export function findBounce(counts: readonly number[]): number[] {
  const found: number[] = []
  for (let second = 1; second < counts.length - 1; second++) {
    const neighbour = Math.max(counts[second - 1]!, counts[second + 1]!)
    const here = counts[second]!
    if (here > TIMES_NEIGHBOUR * neighbour && here >= neighbour + MORE_THAN_NEIGHBOUR) found.push(second)
  }
  return found
}
