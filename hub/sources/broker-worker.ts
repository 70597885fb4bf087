import { setTimeout as pause } from 'node:timers/promises'
import { Worker } from 'node:worker_threads'
import type { BoardKeys } from '../access/board-keys.ts'
import { errorFrom, messageOf } from '../errors.ts'
import { SMALL_THREAD } from '../small-heaps.ts'
import type { BrokerSetting, FromBrokerThread, ToBrokerThread } from './broker-words.ts'
import { framesOf } from './frame-batch.ts'
import type { MqttSource, OnLink } from './mqtt-source.ts'
import type { Receive } from './source.ts'
import { troubleText } from './trouble.ts'

/** A client that does not let go of its connection is not waited for longer. */
const CLOSE_WITHIN_MS = 500

/**
 * The embedded broker in a thread of its own, as the main thread sees it. What it receives goes through `receive` as from
 * any source, and a board's message is acknowledged only once that has settled.
 * @throws HubError `E_BROKER_PORT` when the port is taken
 */
export async function startBrokerThread(
  setting: Omit<BrokerSetting, 'hashes' | 'mayBeAnonymous'>,
  keys: BoardKeys,
  receive: Receive,
  onLink: OnLink,
  onChange: () => void,
): Promise<MqttSource> {
  const workerData: BrokerSetting = {
    ...setting,
    hashes: keys.hashes(),
    mayBeAnonymous: keys.mayBeAnonymous,
  }
  const worker = new Worker(new URL('./broker-thread.js', import.meta.url), {
    workerData,
    resourceLimits: SMALL_THREAD,
  })
  const tell = (message: ToBrokerThread) => worker.postMessage(message)
  const settling = new Settling(tell)
  keys.onChange(() => tell({ kind: 'keys', hashes: keys.hashes() }))
  let trouble: string | null = null
  let last = 0
  const closed = new Promise<void>((resolve) => worker.once('exit', () => resolve()))
  const { port, description } = await new Promise<{ port: number; description: string }>(
    (resolve, reject) => {
      worker.on('message', (message: FromBrokerThread) => {
        switch (message.kind) {
          case 'frames':
            for (const frame of framesOf(message.batch)) {
              const number = ++last
              receive(frame, (error) => settling.add(number, error))
            }
            break
          case 'link':
            onLink(message.board, message.isUp)
            break
          case 'listening':
            resolve(message)
            break
          case 'failed':
            reject(errorFrom(message))
            break
        }
      })
      worker.once('error', (error) => {
        trouble = troubleText('E_BROKER_GONE', `The embedded broker has failed (${messageOf(error)}).`)
        onChange()
        reject(error)
      })
    },
  )
  return {
    description,
    port,
    status: () => ({ state: trouble === null ? 'open' : 'gone', trouble }),
    say: (board, words) => tell({ kind: 'say', board, words }),
    async close() {
      keys.onChange(() => {})
      tell({ kind: 'close' })
      await Promise.race([closed, pause(CLOSE_WITHIN_MS, undefined, { ref: false })])
      await worker.terminate()
    },
  }
}

/** Tells the broker's thread together of all frames that were settled in one go. */
class Settling {
  readonly #tell: (message: ToBrokerThread) => void
  #numbers: number[] = []
  #refused: [number, string][] = []
  #isDue = false

  constructor(tell: (message: ToBrokerThread) => void) {
    this.#tell = tell
  }

  add(number: number, error: Error | null): void {
    if (error) this.#refused.push([number, error.message])
    else this.#numbers.push(number)
    if (this.#isDue) return
    this.#isDue = true
    queueMicrotask(() => this.#tellAll())
  }

  #tellAll(): void {
    this.#isDue = false
    this.#tell({ kind: 'settled', numbers: Float64Array.from(this.#numbers), refused: this.#refused })
    this.#numbers = []
    this.#refused = []
  }
}
