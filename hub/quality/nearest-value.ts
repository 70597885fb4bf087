/** A series of another channel, and the value in it that is nearest in time. */
export class NearestValue {
  readonly #timeMs: readonly number[]
  readonly #value: readonly number[]

  /** @param series  times rising, as long as the values */
  constructor(series: { timeMs: readonly number[]; value: readonly number[] }) {
    this.#timeMs = series.timeMs
    this.#value = series.value
  }

  /** @returns null when none lies at most `withinMs` away; of two as near, the earlier */
  at(timeMs: number, withinMs: number): number | null {
    let low = 0
    let high = this.#timeMs.length
    while (low < high) {
      const middle = (low + high) >> 1
      if (this.#timeMs[middle]! < timeMs) low = middle + 1
      else high = middle
    }
    const before = low - 1
    const gapBefore = before >= 0 ? timeMs - this.#timeMs[before]! : Infinity
    const gapAfter = low < this.#timeMs.length ? this.#timeMs[low]! - timeMs : Infinity
    const nearest = gapBefore <= gapAfter ? before : low
    return Math.min(gapBefore, gapAfter) <= withinMs ? this.#value[nearest]! : null
  }
}
