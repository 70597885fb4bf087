import { Backlog, type Message } from './backlog.ts'
import type { BoardPlan } from './board-plan.ts'
import type { BoardSurroundings, ClassBoard } from './class-board.ts'
import { requestLines, understandRequest } from './hub-request.ts'
import { checksumTrailer } from './line-checksum.ts'
import type { Sample } from './sampling.ts'
import { packText } from './senml-pack.ts'
import { SerialCable } from './serial-cable.ts'

const inFlight = 8
const answerWithinRealMs = 2000
const lookEveryRealMs = 500
const backlogRoom = 5000

/** SenML on a cable, a pack and a checksum a line; keeps each message until the hub answers `kept`. */
export class SerialBoard implements ClassBoard {
  readonly plan: BoardPlan
  readonly #around: BoardSurroundings
  readonly #backlog: Backlog
  readonly #cable: SerialCable
  #look: NodeJS.Timeout | undefined
  #latest: { message: Message; line: Buffer } | null = null

  constructor(plan: BoardPlan, startup: number, around: BoardSurroundings) {
    this.plan = plan
    this.#around = around
    this.#backlog = new Backlog(startup, backlogRoom, (message) => around.truth.dropped(plan, message))
    this.#cable = new SerialCable(plan, around.tell, {
      onBytes: requestLines((line) => this.#obey(line)),
      onListened: () => {
        this.#backlog.sendAllAgain()
        this.#send()
      },
    })
  }

  get waiting(): number {
    return this.#backlog.size
  }

  async switchOn(): Promise<void> {
    await this.#cable.plugIn()
    this.#look = setInterval(() => this.#send(), lookEveryRealMs)
  }

  async switchOff(): Promise<void> {
    clearInterval(this.#look)
    await this.#cable.remove()
  }

  take(sample: Sample): void {
    this.#backlog.add(sample)
    this.#send()
  }

  sendGarbage(what: string, bytes: Buffer): boolean {
    if (!this.#cable.isHeard) return false
    this.#around.truth.garbage(this.plan, what, bytes, this.#around.clock.now())
    this.#cable.writeLine(bytes)
    return true
  }

  repeatLatest(isFresh: boolean): boolean {
    if (!this.#latest || !this.#cable.isHeard) return false
    const { message, line } = this.#latest
    this.#around.truth.sending(this.plan, message, this.#around.clock.now(), 'repeat')
    this.#cable.writeLine(isFresh ? this.#lineOf(message) : line)
    return true
  }

  breakLink(forRealMs: number): boolean {
    if (!this.#cable.isHeard || !this.#latest) return false
    const line = this.#lineOf(this.#latest.message)
    const begun = line.subarray(0, Math.floor(line.length / 2))
    this.#around.truth.cut(this.plan, begun, this.#around.clock.now())
    this.#cable.pullOut(begun, forRealMs)
    return true
  }

  #send(): void {
    if (!this.#cable.isHeard) return
    const { clock, truth } = this.#around
    for (const message of this.#backlog.due(clock.realNow(), inFlight, answerWithinRealMs)) {
      truth.sending(this.plan, message, clock.now(), null)
      message.sentAtRealMs = clock.realNow()
      const line = this.#lineOf(message)
      this.#latest = { message, line }
      this.#cable.writeLine(line)
    }
  }

  #lineOf(message: Message): Buffer {
    const text = packText(this.plan.name, message, this.#around.clock.now(), { kind: 'relative-records' })
    return Buffer.from(text + checksumTrailer(Buffer.from(text)))
  }

  #obey(line: string): void {
    const request = understandRequest(line)
    const { clock, truth } = this.#around
    if (request?.kind === 'kept') {
      if (request.startup !== this.#backlog.startup || !this.#backlog.forget(request.message)) return
      truth.acknowledged(this.plan, request.startup, request.message, clock.now())
      this.#send()
    }
    if (request?.kind === 'who') {
      this.#backlog.add(
        { instantMs: clock.now(), records: [] },
        `${this.plan.name}, rehearsal sketch on a cable`,
      )
      this.#send()
    }
    if (request?.kind === 'every') this.#around.changeInterval(this.plan, request.seconds)
  }
}
