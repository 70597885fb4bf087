/**
 * Round numbers along an axis: steps of 1, 2 or 5 times a power of ten.
 * @param low  finite, below `high`
 * @param atMost  as many ticks at the most, 2 or more
 * @returns ticks from the last one at or below `low` to the first at or above `high`, rising
 */
export function ticksAround(low: number, high: number, atMost: number): number[] {
  const rough = (high - low) / Math.max(1, atMost - 1)
  const power = Math.floor(Math.log10(rough))
  for (const [factor, exponent] of [
    [1, power],
    [2, power],
    [5, power],
    [1, power + 1],
    [2, power + 1],
    [5, power + 1],
  ] as const) {
    // whole multiples of a whole number, so that 0.3 is not 0.30000000000000004
    const count = (value: number) =>
      (exponent < 0 ? value * 10 ** -exponent : value / 10 ** exponent) / factor
    const from = Math.floor(count(low) + 1e-9)
    const to = Math.ceil(count(high) - 1e-9)
    if (to - from + 1 > Math.max(2, atMost)) continue
    return Array.from({ length: to - from + 1 }, (_, index) => {
      const whole = (from + index) * factor
      return exponent < 0 ? whole / 10 ** -exponent : whole * 10 ** exponent
    })
  }
  return [low, high]
}

/** The ticks of an axis in text: all with the same decimals, a true minus sign, thousands set apart. */
export function tickTexts(ticks: readonly number[]): string[] {
  const step = ticks.length < 2 ? 1 : Math.abs(ticks[1]! - ticks[0]!)
  const decimals = Math.min(8, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)))
  return ticks.map((tick) => fixedText(tick, decimals))
}

/** A number with fixed decimals as pictures and the report write it. */
export function fixedText(value: number, decimals: number): string {
  const [whole = '0', part] = Math.abs(value).toFixed(decimals).split('.')
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u00a0') : whole
  const digits = part === undefined ? grouped : `${grouped}.${part}`
  return value < 0 && /[1-9]/.test(digits) ? `\u2212${digits}` : digits
}
