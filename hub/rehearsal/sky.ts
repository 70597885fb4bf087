import type { Chance } from './seeded-chance.ts'

/** Illuminance of the unshaded bank with the sun at its highest and no cloud before it, lx: a hazy day. */
const hazyNoonLux = 46_000

/**
 * Solar time of day at the start. The rehearsal's day begins in the morning whenever it is started,
 * so that a class rehearsing in the evening does not practise in the dark.
 */
export const solarHourAtStart = 10

export interface Sky {
  /** 0…24, of the invented place */
  solarHour(elapsedSeconds: number): number
  /** 0 below the horizon, 1 at noon */
  sunHeight(elapsedSeconds: number): number
  /** 0.3 under a thick cloud to 1 in clear sun; the same for every quadrat at a moment */
  clearness(elapsedSeconds: number): number
  /** on open ground, lx */
  openLux(elapsedSeconds: number): number
}

export function skyOf(chance: Chance): Sky {
  const solarHour = (elapsedSeconds: number) => (solarHourAtStart + elapsedSeconds / 3600) % 24
  const sunHeight = (elapsedSeconds: number) => {
    const sinceSunrise = solarHour(elapsedSeconds) - 4.5
    return sinceSunrise > 0 && sinceSunrise < 15 ? Math.sin((Math.PI * sinceSunrise) / 15) : 0
  }
  const clearness = (elapsedSeconds: number) => {
    const banks = chance.smooth('sky/cloud-banks', elapsedSeconds / 420)
    const puffs = chance.smooth('sky/puffs', elapsedSeconds / 55)
    const cover = Math.min(1, Math.max(0, (0.7 * banks + 0.3 * puffs - 0.45) * 3))
    return 1 - 0.7 * cover
  }
  const openLux = (elapsedSeconds: number) =>
    hazyNoonLux * sunHeight(elapsedSeconds) ** 1.2 * clearness(elapsedSeconds)
  return { solarHour, sunHeight, clearness, openLux }
}
