/** A series of another channel, and the value in it that is nearest in time. */
export class NearestValue {
  readonly #timeMs: readonly number[]
  readonly #value: readonly number[]
  /** where the last moment asked for would stand: the next one is mostly close by */
  #near = 0

  /** @param series  times rising, as long as the values */
  constructor(series: { timeMs: readonly number[]; value: readonly number[] }) {
    this.#timeMs = series.timeMs
    this.#value = series.value
  }

  /** @returns null when none lies at most `withinMs` away; of two as near, the earlier */
  at(timeMs: number, withinMs: number): number | null {
    const low = this.#firstNotBefore(timeMs)
    const before = low - 1
    const gapBefore = before >= 0 ? timeMs - this.#timeMs[before]! : Infinity
    const gapAfter = low < this.#timeMs.length ? this.#timeMs[low]! - timeMs : Infinity
    const nearest = gapBefore <= gapAfter ? before : low
    return Math.min(gapBefore, gapAfter) <= withinMs ? this.#value[nearest]! : null
  }
  /** @returns the first place whose time is not before `timeMs` */
  #firstNotBefore(timeMs: number): number {
    const times = this.#timeMs
    for (const place of [this.#near, this.#near + 1])
      if (place <= times.length && (place === 0 || times[place - 1]! < timeMs))
        if (place === times.length || times[place]! >= timeMs) {
          this.#near = place
          return place
        }
    let low = 0
    let high = times.length
    while (low < high) {
      const middle = (low + high) >> 1
      if (times[middle]! < timeMs) low = middle + 1
      else high = middle
    }
    this.#near = low
    return low
  }
}
