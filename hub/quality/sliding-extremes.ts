/**
 * Highest and lowest of a window that only moves forward, in amortised constant time per reading.
 * @see Lemire 2006, Streaming maximum-minimum filter, arXiv cs/0610046: monotone queues of candidates
 */
export class SlidingExtremes {
  readonly #numbers: ArrayLike<number | null>
  readonly #high: Int32Array
  readonly #low: Int32Array
  #highFirst = 0
  #highEnd = 0
  #lowFirst = 0
  #lowEnd = 0

  constructor(numbers: ArrayLike<number | null>) {
    this.#numbers = numbers
    this.#high = new Int32Array(numbers.length)
    this.#low = new Int32Array(numbers.length)
  }

  /** Takes in the number at this index; indexes must rise. Never a null one. */
  add(index: number): void {
    const number = this.#numbers[index]!
    while (this.#highEnd > this.#highFirst && this.#numbers[this.#high[this.#highEnd - 1]!]! <= number)
      this.#highEnd -= 1
    this.#high[this.#highEnd++] = index
    while (this.#lowEnd > this.#lowFirst && this.#numbers[this.#low[this.#lowEnd - 1]!]! >= number)
      this.#lowEnd -= 1
    this.#low[this.#lowEnd++] = index
  }

  /** Forgets every index below this one. */
  dropBefore(index: number): void {
    while (this.#highFirst < this.#highEnd && this.#high[this.#highFirst]! < index) this.#highFirst += 1
    while (this.#lowFirst < this.#lowEnd && this.#low[this.#lowFirst]! < index) this.#lowFirst += 1
  }

  /** Of an empty window −∞. */
  get highest(): number {
    return this.#highFirst < this.#highEnd ? this.#numbers[this.#high[this.#highFirst]!]! : -Infinity
  }

  /** Of an empty window ∞. */
  get lowest(): number {
    return this.#lowFirst < this.#lowEnd ? this.#numbers[this.#low[this.#lowFirst]!]! : Infinity
  }
}
