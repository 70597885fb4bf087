/**
 * True when a signal is as bright as the converter can say: at full scale where the signal rises with light,
 * at zero where it falls.
 */
export function isAtFullScale(signal: number, fullScale: number | undefined, slope: number): boolean {
  if (fullScale === undefined) return false
  return slope >= 0 ? signal >= fullScale : signal <= 0
}
