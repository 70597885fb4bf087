/** BH1750FVI technical note 2009.04 Rev. B, electrical characteristics. */
export const BH1750 = {
  countsPerLuxTypical: 1.2,
  countsPerLuxLow: 0.96,
  countsPerLuxHigh: 1.44,
  mtregDefault: 69,
  mtregLow: 31,
  mtregHigh: 254,
  fullScaleCounts: 65535,
} as const

/** One piece of the TSL2561 formula, holding up to and including this ratio of channel 1 to channel 0. */
interface RatioPiece {
  upToRatio: number
  perChannel0: number
  perChannel1: number
  /** factor of channel 0 · ratio^1.4 */
  perPower: number
}

/** TSL2560/TSL2561 data sheet TAOS059K, April 2007, page 22; above the last ratio the lux are 0. */
export const TSL2561_PIECES: Readonly<Record<'T' | 'CS', readonly RatioPiece[]>> = {
  T: [
    { upToRatio: 0.5, perChannel0: 0.0304, perChannel1: 0, perPower: -0.062 },
    { upToRatio: 0.61, perChannel0: 0.0224, perChannel1: -0.031, perPower: 0 },
    { upToRatio: 0.8, perChannel0: 0.0128, perChannel1: -0.0153, perPower: 0 },
    { upToRatio: 1.3, perChannel0: 0.00146, perChannel1: -0.00112, perPower: 0 },
  ],
  CS: [
    { upToRatio: 0.52, perChannel0: 0.0315, perChannel1: 0, perPower: -0.0593 },
    { upToRatio: 0.65, perChannel0: 0.0229, perChannel1: -0.0291, perPower: 0 },
    { upToRatio: 0.8, perChannel0: 0.0157, perChannel1: -0.018, perPower: 0 },
    { upToRatio: 1.3, perChannel0: 0.00338, perChannel1: -0.0026, perPower: 0 },
  ],
}

/** Integration times of the TSL2561 with their full scale (data sheet, from memory) and the factor to 402 ms. */
export const TSL2561_INTEGRATION: Readonly<Record<string, { fullScaleCounts: number; factor: number }>> = {
  '13.7': { fullScaleCounts: 5047, factor: 402 / 13.7 },
  '101': { fullScaleCounts: 37177, factor: 402 / 101 },
  '402': { fullScaleCounts: 65535, factor: 1 },
}
