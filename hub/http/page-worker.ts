import { setTimeout as pause } from 'node:timers/promises'
import { Worker } from 'node:worker_threads'
import { errorFrom, HubError, messageOf } from '../errors.ts'
import { SMALL_THREAD } from '../small-heaps.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'
import type { Desk, FromPageThread, PageThreadSetting, ToPageThread } from './desk.ts'

const STOP_WITHIN_MS = 800

/** The page thread as the main thread sees it: tells it things, and answers what it asks by way of the desk. */
export class PageWorker {
  readonly #worker: Worker
  readonly #desk: Desk
  #isWatched = false
  /** the port it listens on, once it does. @throws HubError when the address is taken */
  readonly listening: Promise<number>

  constructor(
    setting: PageThreadSetting,
    desk: Desk,
    lastMessageId: () => number,
    onFailure: (error: Error) => void,
  ) {
    this.#desk = desk
    const worker = new Worker(new URL('./page-thread.js', import.meta.url), {
      workerData: setting,
      resourceLimits: SMALL_THREAD,
    })
    this.#worker = worker
    this.listening = new Promise((resolve, reject) => {
      worker.on('message', (message: FromPageThread) => {
        switch (message.kind) {
          case 'listening':
            resolve(message.port)
            break
          case 'failed':
            reject(errorFrom(message))
            break
          case 'watched':
            this.#isWatched = message.isWatched
            // what was committed since it opened is read from the store
            if (message.isWatched) this.tell({ kind: 'committed', rows: [], lastMessageId: lastMessageId() })
            break
          case 'call':
            void this.#answer(message)
            break
        }
      })
      worker.on('error', (error) => {
        onFailure(error as Error)
        reject(error)
      })
    })
  }

  /** some page is open, and wants to be told what is committed */
  get isWatched(): boolean {
    return this.#isWatched
  }

  tell(message: ToPageThread): void {
    this.#worker.postMessage(message)
  }

  async stop(): Promise<void> {
    const stopped = new Promise<void>((resolve) => this.#worker.once('exit', () => resolve()))
    this.tell({ kind: 'stop' })
    await Promise.race([stopped, pause(STOP_WITHIN_MS, undefined, { ref: false })])
    await this.#worker.terminate()
  }

  async #answer({ call, name, args }: Extract<FromPageThread, { kind: 'call' }>): Promise<void> {
    try {
      const value = await (this.#desk[name] as (...args: unknown[]) => Promise<unknown>)(...args)
      this.tell({ kind: 'answer', call, value: value ?? null })
    } catch (error) {
      const code = error instanceof HubError ? error.code : 'E_HUB'
      const faults = error instanceof SurveyRefused ? { faults: [...error.faults] } : {}
      this.tell({ kind: 'refusal', call, code, message: messageOf(error), ...faults })
    }
  }
}
