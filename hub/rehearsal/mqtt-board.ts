import type { MqttClient } from 'mqtt'
import { Backlog, type Message } from './backlog.ts'
import type { BoardClock } from './board-clock.ts'
import type { BoardPlan } from './board-plan.ts'
import type { BoardSurroundings, ClassBoard } from './class-board.ts'
import { understandRequest } from './hub-request.ts'
import { boardTopic, openRadio } from './mqtt-radio.ts'
import type { Sample } from './sampling.ts'
import { packText, type TimeStyle } from './senml-pack.ts'

const inFlight = 16
const answerWithinRealMs = 10_000
const lookEveryRealMs = 1000
const connectAgainRealMs = 1000
const backlogRoom = 5000

/**
 * SenML over MQTT 3.1.1. The backlog is the board's own: every connection begins with a fresh client,
 * so that a message is not sent again with times that were true minutes ago.
 */
export class MqttBoard implements ClassBoard {
  readonly plan: BoardPlan
  readonly #around: BoardSurroundings
  readonly #broker: string
  readonly #backlog: Backlog
  readonly #clock: BoardClock | null
  readonly #style: TimeStyle
  #client: MqttClient | null = null
  #isOn = false
  #outUntilRealMs = 0
  #timers: NodeJS.Timeout[] = []
  #latest: { message: Message; payload: string } | null = null

  constructor(
    plan: BoardPlan,
    startup: number,
    broker: string,
    clock: BoardClock | null,
    around: BoardSurroundings,
  ) {
    this.plan = plan
    this.#around = around
    this.#broker = broker
    this.#clock = clock
    this.#style = clock ? { kind: 'clock', clock } : { kind: 'relative-base' }
    this.#backlog = new Backlog(startup, backlogRoom, (message) => around.truth.dropped(plan, message))
  }

  get waiting(): number {
    return this.#backlog.size
  }

  async switchOn(): Promise<void> {
    this.#isOn = true
    this.#connect()
    this.#timers = [
      setInterval(() => this.#send(), lookEveryRealMs),
      setInterval(() => this.#connect(), connectAgainRealMs),
    ]
  }

  async switchOff(): Promise<void> {
    this.#isOn = false
    for (const timer of this.#timers) clearInterval(timer)
    this.#hangUp()
  }

  take(sample: Sample): void {
    this.#backlog.add(sample)
    this.#send()
  }

  sendGarbage(what: string, bytes: Buffer): boolean {
    if (!this.#client?.connected) return false
    this.#around.truth.garbage(this.plan, what, bytes, this.#around.clock.now())
    this.#client.publish(boardTopic(this.plan, 'pack'), bytes, { qos: 1 }, () => {})
    return true
  }

  repeatLatest(isFresh: boolean): boolean {
    if (!this.#client?.connected || !this.#latest) return false
    const { message, payload } = this.#latest
    this.#around.truth.sending(this.plan, message, this.#around.clock.now(), 'repeat')
    this.#publish(message, isFresh ? this.#payloadOf(message) : payload)
    return true
  }

  breakLink(forRealMs: number): boolean {
    if (!this.#client?.connected) return false
    this.#outUntilRealMs = this.#around.clock.realNow() + forRealMs
    this.#hangUp()
    return true
  }

  #connect(): void {
    if (!this.#isOn || this.#client || this.#around.clock.realNow() < this.#outUntilRealMs) return
    const client = openRadio(this.#broker, this.plan, {
      onConnected: () => this.#send(),
      onRequest: (text) => this.#obey(text),
      onClosed: () => {
        if (this.#client === client) this.#hangUp()
      },
    })
    this.#client = client
  }

  /** Without DISCONNECT, so that the broker sends the will. */
  #hangUp(): void {
    const client = this.#client
    this.#client = null
    this.#backlog.sendAllAgain()
    client?.stream.destroy()
    client?.end(true)
  }

  #send(): void {
    if (!this.#client?.connected) return
    const { clock, truth } = this.#around
    for (const message of this.#backlog.due(clock.realNow(), inFlight, answerWithinRealMs)) {
      // no answer for so long: the broker withholds it, and a new connection is the way to ask again
      if (message.sentAtRealMs !== null) {
        this.#hangUp()
        return
      }
      truth.sending(this.plan, message, clock.now(), null)
      message.sentAtRealMs = clock.realNow()
      const payload = this.#payloadOf(message)
      this.#latest = { message, payload }
      this.#publish(message, payload)
    }
  }

  #payloadOf(message: Message): string {
    return packText(this.plan.name, message, this.#around.clock.now(), this.#style)
  }

  #publish(message: Message, payload: string): void {
    this.#client?.publish(boardTopic(this.plan, 'pack'), payload, { qos: 1 }, (error) => {
      if (error || !this.#backlog.forget(message.number)) return
      const { clock, truth } = this.#around
      truth.acknowledged(this.plan, message.startup, message.number, clock.now())
      this.#send()
    })
  }

  #obey(text: string): void {
    const request = understandRequest(text)
    const { clock } = this.#around
    if (request?.kind === 'time') this.#clock?.set(request.unixSeconds, clock.now())
    if (request?.kind === 'every') this.#around.changeInterval(this.plan, request.seconds)
    if (request?.kind === 'who') {
      this.#backlog.add(
        { instantMs: clock.now(), records: [] },
        `${this.plan.name}, rehearsal sketch on the air`,
      )
      this.#send()
    }
  }
}
