import { BH1750, TSL2561_INTEGRATION, TSL2561_PIECES } from '../references/light-sensors.ts'
import { type Refusal, refuse } from '../refusal.ts'

/**
 * Lux per count of a BH1750 at a measurement-time register and mode: 1/1.2 · 69/MTreg, halved in mode 2.
 * @param mtreg  31–254, 69 when not given
 * @param mode  1 for high and low resolution, 2 for high resolution mode 2
 * @see BH1750FVI technical note 2009.04 Rev. B
 */
export function bh1750LuxPerCount(mtreg: number = BH1750.mtregDefault, mode: 1 | 2 = 1): number | Refusal {
  if (!Number.isInteger(mtreg) || mtreg < BH1750.mtregLow || mtreg > BH1750.mtregHigh) {
    return refuse(
      'E_SETTING',
      `The measurement-time register is ${mtreg}; it is a whole number from 31 to 254.`,
    )
  }
  if (mode !== 1 && mode !== 2) return refuse('E_SETTING', `The mode is ${mode}; it is 1 or 2.`)
  return BH1750.mtregDefault / mtreg / BH1750.countsPerLuxTypical / mode
}

export interface Tsl2561Formula {
  fullScaleCounts: number
  luxAt(channel0: number, channel1: number): number
  isSaturated(channel0: number, channel1: number): boolean
}

/**
 * Lux of a TSL2561 from its two channels: counts brought to gain 16 and 402 ms, then a formula by their ratio.
 * @param integration  13.7, 101 or 402 ms; full scale is 5047, 37177 or 65535 counts
 * @see TSL2560/TSL2561 data sheet TAOS059K, April 2007, page 22; scaling and full scales from memory
 */
export function tsl2561Formula(
  sensorPackage: 'T' | 'CS' = 'T',
  gain: 1 | 16 = 16,
  integration: 13.7 | 101 | 402 = 402,
): Tsl2561Formula | Refusal {
  const timing = TSL2561_INTEGRATION[String(integration)]
  if (timing === undefined)
    return refuse('E_SETTING', `Integration of ${integration} ms; it is 13.7, 101 or 402.`)
  if (gain !== 1 && gain !== 16) return refuse('E_SETTING', `The gain is ${gain}; it is 1 or 16.`)
  const pieces = TSL2561_PIECES[sensorPackage]
  if (pieces === undefined) return refuse('E_SETTING', `The package is ${sensorPackage}; it is T or CS.`)
  const scale = timing.factor * (16 / gain)
  return {
    fullScaleCounts: timing.fullScaleCounts,
    luxAt(channel0, channel1) {
      if (channel0 === 0) return 0
      const ratio = channel1 / channel0
      for (const piece of pieces) {
        if (ratio > piece.upToRatio) continue
        const power = piece.perPower === 0 ? 0 : piece.perPower * ratio ** 1.4
        return scale * (channel0 * (piece.perChannel0 + power) + piece.perChannel1 * channel1)
      }
      return 0
    },
    isSaturated: (channel0, channel1) =>
      channel0 >= timing.fullScaleCounts || channel1 >= timing.fullScaleCounts,
  }
}

/** Counts of a 16-bit converter are 0 to 65535. */
export function refuseCounts(counts: number): Refusal | null {
  if (counts >= 0 && counts <= BH1750.fullScaleCounts) return null
  return refuse('E_COUNT', `${counts} counts cannot be; a 16-bit sensor sends 0 to 65535.`)
}
