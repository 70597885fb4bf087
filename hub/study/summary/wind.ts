const BLOCK_MS = 60_000
/** Readings this close together resolve a gust of three seconds. */
const CLOSE_MS = 1_500
const GUST_READINGS = 3

export interface WindOfQuadrat {
  /** largest running mean over 3 s, or the largest reading where they are further apart; m/s */
  gust: number | null
  /** minutes in which the cups did not turn, % of the minutes measured */
  calmPercent: number | null
}

/**
 * Gust and calm of a series of wind speeds.
 * @see WMO-No. 8 Part I ch. 5: gust as the largest 3 s running mean; calm by averaging block is class practice
 */
export function windOf(timeMs: readonly number[], speed: readonly number[]): WindOfQuadrat {
  if (speed.length === 0) return { gust: null, calmPercent: null }
  let gust = 0
  for (const [index, reading] of speed.entries()) {
    const first = index - GUST_READINGS + 1
    const isRun = first >= 0 && timeMs[index]! - timeMs[first]! <= CLOSE_MS * (GUST_READINGS - 1)
    if (isRun) gust = Math.max(gust, (reading + speed[index - 1]! + speed[index - 2]!) / GUST_READINGS)
  }
  const isClose = gust > 0 || speed.length < GUST_READINGS
  const blocks = new Map<number, boolean>()
  for (const [index, time] of timeMs.entries()) {
    const block = Math.floor(time / BLOCK_MS)
    blocks.set(block, (blocks.get(block) ?? true) && speed[index] === 0)
  }
  const calm = [...blocks.values()].filter(Boolean).length
  return {
    gust: isClose && gust > 0 ? gust : speed.reduce((most, each) => Math.max(most, each), 0),
    calmPercent: (100 * calm) / blocks.size,
  }
}
