import type { Line, LineHeard, Told } from './live-line.ts'

/** What a tab says to the worker that keeps the line. */
export type FromTab = { kind: 'join'; since: number } | { kind: 'leave' }

/** What it is told. `behind`: it has missed more than is kept here, and must fetch everything anew. */
export type ToTab = { kind: 'alive' | 'lost' | 'behind' } | { kind: 'told'; told: Told; isLate: boolean }

/** Events kept for a tab that joins: enough for the time between its first answer and its joining. */
const KEPT = 100

/** One line to the hub for all tabs of a browser: it is opened for the first that joins and closed after the last. */
export class SharedLine<Tab> {
  readonly #open: (since: number, heard: LineHeard) => Line
  readonly #send: (tab: Tab, message: ToTab) => void
  readonly #tabs = new Set<Tab>()
  #line: Line | null = null
  #isAlive = false
  /** the newest event that carries no readings: by it a tab that joins sees what it has missed */
  #news: Told | null = null
  /** the newest readings events, without a hole after the cursor `#keptSince` */
  #kept: (Told & { cursor: number })[] = []
  #keptSince = 0
  #cursor = 0

  constructor(open: (since: number, heard: LineHeard) => Line, send: (tab: Tab, message: ToTab) => void) {
    this.#open = open
    this.#send = send
  }

  /** @param since cursor of the last event the tab has seen */
  join(tab: Tab, since: number): void {
    this.#tabs.add(tab)
    if (!this.#line) {
      this.#isAlive = false
      this.#news = null
      this.#forgetKept(since)
      this.#line = this.#open(since, {
        alive: () => this.#tellAlive(),
        lost: () => this.#tellLost(),
        told: (told) => this.#tell(told),
      })
      return
    }
    if (this.#isAlive) this.#send(tab, { kind: 'alive' })
    if (this.#news)
      this.#send(tab, { kind: 'told', told: { ...this.#news, name: 'pulse', cursor: null }, isLate: true })
    if (since < this.#keptSince) this.#send(tab, { kind: 'behind' })
    else
      for (const told of this.#kept)
        if (told.cursor > since) this.#send(tab, { kind: 'told', told, isLate: true })
  }

  leave(tab: Tab): void {
    this.#tabs.delete(tab)
    if (this.#tabs.size > 0) return
    this.#line?.close()
    this.#line = null
  }

  #tellAlive(): void {
    if (this.#isAlive) return
    this.#isAlive = true
    this.#toAll({ kind: 'alive' })
  }

  #tellLost(): void {
    this.#isAlive = false
    // the hub that answers next may be another one, with other readings under the same numbers
    this.#forgetKept(this.#cursor)
    this.#toAll({ kind: 'lost' })
  }

  #tell(told: Told): void {
    const { name, cursor } = told
    if (name !== 'readings') this.#news = told
    if (cursor !== null) {
      this.#cursor = cursor
      if (name === 'readings') this.#kept.push({ ...told, cursor })
      else this.#forgetKept(cursor)
    }
    if (this.#kept.length > KEPT) this.#keptSince = this.#kept.shift()!.cursor
    this.#toAll({ kind: 'told', told, isLate: false })
  }

  #forgetKept(since: number): void {
    this.#kept = []
    this.#keptSince = since
    this.#cursor = since
  }

  #toAll(message: ToTab): void {
    for (const tab of this.#tabs) this.#send(tab, message)
  }
}
