import { setTimeout as pause } from 'node:timers/promises'
import makeMulticastDns, { type MulticastDNS } from 'multicast-dns'

/** Names tried before the hub does without: `tussock.local`, `tussock-2.local` … */
const NAMES_AT_MOST = 9
/** how long another machine is given to say that a name is its own; RFC 6762 §8.1 asks for three times 250 ms */
const PROBES = 3
const PROBE_MS = 250
/** RFC 6762 §10: host names are remembered for two minutes */
const REMEMBERED_SECONDS = 120

export interface LocalNameSetting {
  /** first choice, without `.local` */
  name: string
  /** addresses of this machine that phones can reach, asked for anew each time */
  addresses: () => readonly string[]
  /** of multicast-dns; for tests */
  link?: { port?: number; interface?: string; bind?: string }
}

/**
 * Answers to a `.local` name on the class's network, so that nobody has to type an address of numbers.
 * @see RFC 6762, multicast DNS
 */
export class LocalName {
  readonly #setting: LocalNameSetting
  readonly #dns: MulticastDNS
  #name: string | null = null
  #isStopped = false

  /** Looks for a name that is free, and answers to it; a network without multicast leaves it without a name. */
  constructor(setting: LocalNameSetting) {
    this.#setting = setting
    this.#dns = makeMulticastDns(setting.link)
    // a name is a comfort: the address of numbers goes on working without it
    this.#dns.on('error', () => this.stop())
    this.#dns.on('warning', () => undefined)
    this.#dns.on('query', ({ questions = [] }) => {
      const asked = questions.some(
        ({ name, type }) => name.toLowerCase() === this.#name && ['A', 'ANY'].includes(type),
      )
      if (asked) this.#announce()
    })
  }

  /** such as `tussock.local`; null while it has none */
  get name(): string | null {
    return this.#name
  }

  /** @returns the name it found, or null */
  async claim(): Promise<string | null> {
    for (let number = 1; number <= NAMES_AT_MOST && !this.#isStopped; number++) {
      const name = `${this.#setting.name}${number === 1 ? '' : `-${number}`}.local`
      if (await this.#isTaken(name)) continue
      if (this.#isStopped) break
      this.#name = name
      this.#announce()
      return name
    }
    return null
  }

  stop(): void {
    if (this.#isStopped) return
    this.#isStopped = true
    this.#name = null
    this.#dns.destroy()
  }

  async #isTaken(name: string): Promise<boolean> {
    let isTaken = false
    const own = new Set(this.#setting.addresses())
    const hear = ({ answers }: { answers: { name: string; type: string; data?: unknown }[] }) => {
      isTaken ||= answers.some(
        (answer) =>
          answer.name.toLowerCase() === name && answer.type === 'A' && !own.has(String(answer.data)),
      )
    }
    this.#dns.on('response', hear)
    for (let probe = 0; probe < PROBES && !isTaken && !this.#isStopped; probe++) {
      this.#dns.query(name, 'A')
      await pause(PROBE_MS)
    }
    this.#dns.off('response', hear)
    return isTaken
  }

  #announce(): void {
    const name = this.#name
    if (name === null) return
    const answers = this.#setting
      .addresses()
      .map((data) => ({ name, type: 'A' as const, ttl: REMEMBERED_SECONDS, data, flush: true }))
    if (answers.length > 0) this.#dns.respond({ answers })
  }
}
