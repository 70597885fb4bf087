import type { ChildProcess } from 'node:child_process'
import { setTimeout as pause } from 'node:timers/promises'
import { afterEach } from 'vitest'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { BoardNow, HubNow, PortNow, Quarantined } from '../../hub/contract/status.ts'
import { temporaryFolder } from './temporary-folder.ts'
import { spawnTussock } from './tussock-command.ts'

export interface HubOptions {
  /** a fresh one that is gone after the test, unless given */
  dataFolder?: string
  /** further arguments of `tussock start`, such as `--serial PATH`; `--port` and `--mqtt-port` are 0 unless given */
  args?: readonly string[]
  env?: NodeJS.ProcessEnv
  /** run it as another user; only root may */
  user?: { uid: number; gid: number }
}

export interface HubEnd {
  code: number | null
  signal: NodeJS.Signals | null
}

export interface Directory {
  boards: BoardNow[]
  ports: PortNow[]
  channels: ChannelNow[]
}

const DEADLINE_MS = 20_000
const ASK_AGAIN_MS = 25
const running = new Set<HubProcess>()

// a hub that a failed test left behind is ended before its folder is removed
afterEach(async () => {
  for (const hub of [...running]) await hub.kill()
})

/**
 * Starts the built hub as a process of its own and waits until it has said that it is ready.
 * @throws Error with what it printed, when it ends before that
 */
export async function startHub(options: HubOptions = {}): Promise<HubProcess> {
  const dataFolder = options.dataFolder ?? temporaryFolder()
  const args = ['start', '--data', dataFolder, ...(options.args ?? [])]
  if (!args.includes('--port')) args.push('--port', '0')
  if (!args.includes('--mqtt-port')) args.push('--mqtt-port', '0')
  const hub = new HubProcess(spawnTussock(args, options.env, options.user), dataFolder)
  await hub.ready
  return hub
}

/** A hub that runs as a process. */
export class HubProcess {
  readonly dataFolder: string
  readonly pid: number
  /** settles when the process has ended, however that came about */
  readonly ended: Promise<HubEnd>
  /** settles when it has printed its last line of greeting */
  readonly ready: Promise<void>
  readonly #child: ChildProcess
  #stdout = ''
  #stderr = ''

  constructor(child: ChildProcess, dataFolder: string) {
    this.#child = child
    this.pid = child.pid ?? 0
    this.dataFolder = dataFolder
    running.add(this)
    this.ended = new Promise((resolve) => {
      child.once('close', (code, signal) => {
        running.delete(this)
        resolve({ code, signal })
      })
    })
    this.ready = new Promise((resolve, reject) => {
      child.stdout?.setEncoding('utf8').on('data', (text: string) => {
        this.#stdout += text
        if (this.#stdout.includes('Stop with Ctrl+C.')) resolve()
      })
      child.stderr?.setEncoding('utf8').on('data', (text: string) => {
        this.#stderr += text
      })
      void this.ended.then(({ code }) =>
        reject(new Error(`the hub ended with ${code} before it was ready:\n${this.#stdout}${this.#stderr}`)),
      )
    })
    // who only watches it end need not handle that it never was ready
    this.ready.catch(() => {})
  }

  get stdout(): string {
    return this.#stdout
  }

  get stderr(): string {
    return this.#stderr
  }

  /** such as `http://127.0.0.1:40123` */
  get address(): string {
    return this.#printed(/^ {2}open {3}(\S+)$/m)
  }

  /** such as `mqtt://127.0.0.1:40124`, of whichever broker the hub uses */
  get mqttUrl(): string {
    return this.#printed(/^ {2}boards .*(mqtts?:\/\/\S+)$/m)
  }

  get mqttPort(): number {
    return Number(new URL(this.mqttUrl).port)
  }

  /** Ends it as Ctrl+C does, and waits. */
  async stop(): Promise<HubEnd> {
    this.#child.kill('SIGTERM')
    return this.ended
  }

  /** Ends it as a power cut does, and waits. */
  async kill(): Promise<HubEnd> {
    this.#child.kill('SIGKILL')
    return this.ended
  }

  request(path: string, init?: RequestInit): Promise<Response> {
    return fetch(`${this.address}${path}`, init)
  }

  /** The JSON a path gives. @throws Error with the hub's own words when it refuses */
  async get<T>(path: string): Promise<T> {
    return asJson<T>(await this.request(path))
  }

  async send<T>(method: 'POST' | 'PUT' | 'DELETE', path: string, body?: unknown): Promise<T> {
    const init = { method, headers: { 'content-type': 'application/json' } }
    return asJson<T>(
      await this.request(path, body === undefined ? init : { ...init, body: JSON.stringify(body) }),
    )
  }

  now(): Promise<HubNow> {
    return this.get('/api/hub')
  }

  directory(): Promise<Directory> {
    return this.get('/api/directory')
  }

  async quarantined(): Promise<Quarantined[]> {
    return (await this.get<{ quarantined: Quarantined[] }>('/api/quarantine?limit=500')).quarantined
  }

  /** Asks again until the answer is as wished. @throws Error showing the last answer, when it never becomes so */
  async until<T>(ask: () => Promise<T>, isAsWished: (answer: T) => boolean): Promise<T> {
    const deadline = Date.now() + DEADLINE_MS
    for (;;) {
      const answer = await ask()
      if (isAsWished(answer)) return answer
      if (Date.now() > deadline)
        throw new Error(`still not so after ${DEADLINE_MS / 1000} s: ${JSON.stringify(answer, null, 1)}`)
      await pause(ASK_AGAIN_MS)
    }
  }

  /** Waits until so many readings are stored in all; more are a mistake too. */
  async untilReadings(count: number): Promise<HubNow> {
    const now = await this.until(
      () => this.now(),
      ({ tallies }) => tallies.readings >= count,
    )
    if (now.tallies.readings > count) throw new Error(`${now.tallies.readings} readings, not ${count}`)
    return now
  }

  #printed(pattern: RegExp): string {
    const found = pattern.exec(this.#stdout)?.[1]
    if (found === undefined) throw new Error(`the hub has not printed ${pattern}:\n${this.#stdout}`)
    return found
  }
}

async function asJson<T>(response: Response): Promise<T> {
  const text = await response.text()
  if (!response.ok) throw new Error(`${response.status} ${text}`)
  return JSON.parse(text) as T
}
