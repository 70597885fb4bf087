import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { type Clock, rehearsalClock, rfc3339, systemClock } from './clock.ts'
import type { SerialPortSetting } from './contract/survey.ts'
import { HubError, isErrorCode, messageOf } from './errors.ts'
import type { Desk, FromPageThread, HubState, PageThreadSetting, ToPageThread } from './http/desk.ts'
import { appraiseWith } from './intake/appraise.ts'
import { BoardWatch } from './intake/board-watch.ts'
import { Intake } from './intake/intake.ts'
import { type RehearsalSetting, startClass } from './rehearse.ts'
import { CaptureRecorder } from './sources/capture.ts'
import { startEmbeddedBroker } from './sources/embedded-broker.ts'
import type { MqttSource } from './sources/mqtt-source.ts'
import { useOutsideBroker } from './sources/outside-broker.ts'
import { SerialSource } from './sources/serial-source.ts'
import type { Receive } from './sources/source.ts'
import { ADDRESS_FILE, holdFolder } from './store/hold-folder.ts'
import { SqliteWriter } from './store/sqlite-writer.ts'
import { addCalibration, placeProbe, withdrawCalibration } from './survey/change-survey.ts'
import { SurveyKeeper } from './survey/keep-surveys.ts'
import { SurveyRefused } from './survey/survey-refused.ts'

export interface HubSetting {
  version: string
  dataFolder: string
  host: string
  port: number
  mqttHost: string
  /** null: 1883, and in a rehearsal any free port if that one is taken */
  mqttPort: number | null
  /** use this broker in place of the embedded one */
  brokerUrl: string | null
  serialPorts: SerialPortSetting[]
  /** write everything that arrives to this file */
  recordTo: string | null
  rehearsal: RehearsalSetting | null
}

const MQTT_PORT = 1883
const SEAL_EVERY_MS = 60_000
const TELL_EVERY_MS = 500
const RECOMPUTE_ROWS = 4000

/** One hub on one data folder, from start to stop. */
export class Session {
  readonly setting: HubSetting
  readonly dataFolder: string
  readonly #clock: Clock
  readonly #startMs = Date.now()
  readonly #say: (line: string) => void
  readonly #change: (rehearsal: RehearsalSetting | null) => void
  readonly #letGo: () => void
  readonly #writer: SqliteWriter
  readonly #keeper: SurveyKeeper
  readonly #intake: Intake
  readonly #watch = new BoardWatch()
  readonly #recorder: CaptureRecorder | null = null
  readonly #serial: SerialSource
  readonly #receive: Receive
  #mqtt: MqttSource | null = null
  #page: Worker | null = null
  #class: { stop(): Promise<void> } | null = null
  #port = 0
  #trouble: string | null = null
  #stateIsDue = false
  #lastToldMs = 0
  #isRecomputing = false
  #isStopped = false
  readonly #timers: NodeJS.Timeout[] = []

  static async start(
    setting: HubSetting,
    say: (line: string) => void,
    change: (rehearsal: RehearsalSetting | null) => void,
    end: () => void,
  ): Promise<Session> {
    const session = new Session(setting, say, change)
    try {
      await session.#open(end)
      return session
    } catch (error) {
      await session.stop()
      throw error
    }
  }

  private constructor(
    setting: HubSetting,
    say: (line: string) => void,
    change: (rehearsal: RehearsalSetting | null) => void,
  ) {
    this.setting = setting
    this.#say = say
    this.#change = change
    const stamp = rfc3339(this.#startMs).replace(/[:.]/g, '-')
    this.dataFolder = setting.rehearsal ? join(setting.dataFolder, 'rehearsals', stamp) : setting.dataFolder
    this.#clock = setting.rehearsal
      ? rehearsalClock(this.#startMs, setting.rehearsal.speed, this.#startMs)
      : systemClock
    this.#letGo = holdFolder(this.dataFolder)
    try {
      this.#writer = new SqliteWriter(this.dataFolder)
    } catch (error) {
      this.#letGo()
      throw error
    }
    this.#keeper = new SurveyKeeper(this.#writer, () => this.#clock.nowMs())
    this.#intake = new Intake(
      this.#writer,
      this.dataFolder,
      appraiseWith(this.#keeper.timelines),
      this.#keeper.columnsOf,
      {
        committed: (items, outcomes) => this.#committed(items, outcomes),
        trouble: (text) => {
          this.#trouble = text
          this.#tellState()
        },
      },
    )
    if (setting.recordTo) {
      const recorder = new CaptureRecorder(setting.recordTo)
      recorder.onError((error) => say(`Recording to ${setting.recordTo} has ended: ${error.message}`))
      this.#recorder = recorder
      this.#receive = (frame, settled) => {
        recorder.record(frame)
        this.#intake.receive(frame, settled)
      }
    } else this.#receive = this.#intake.receive
    this.#serial = new SerialSource(this.#receive, this.#clock, () => this.#tellState())
  }

  get port(): number {
    return this.#port
  }

  get address(): string {
    const host = this.setting.host.includes(':') ? `[${this.setting.host}]` : this.setting.host
    return `http://${host}:${this.#port}`
  }

  get mqtt(): MqttSource {
    return this.#mqtt!
  }

  async #open(end: () => void): Promise<void> {
    this.#mqtt = await this.#openMqtt()
    await this.#openPage()
    for (const port of [...this.setting.serialPorts, ...this.#rememberedPorts()])
      this.#serial.open(port, null)
    this.#openPortsOfSurveys()
    writeFileSync(
      join(this.dataFolder, ADDRESS_FILE),
      JSON.stringify({ address: this.address, pid: process.pid }),
    )
    this.#timers.push(setInterval(() => this.#sealQuietly(), SEAL_EVERY_MS))
    this.#timers.push(setInterval(() => this.#tellStateNow(), TELL_EVERY_MS))
    if (this.setting.rehearsal) this.#startClass(this.setting.rehearsal, end)
    this.#recomputeSoon()
  }

  async #openMqtt(): Promise<MqttSource> {
    const { brokerUrl, mqttHost, mqttPort, rehearsal } = this.setting
    const onLink = (board: string, isUp: boolean) => {
      this.#watch.linked(board, 'mqtt', isUp)
      this.#tellState()
    }
    if (brokerUrl !== null && rehearsal === null) {
      const known = this.#writer.setting('mqtt-client')
      const clientId = known ?? `tussock-hub-${Math.random().toString(36).slice(2, 10)}`
      if (known === null) this.#writer.setSetting('mqtt-client', clientId)
      return useOutsideBroker(brokerUrl, clientId, this.#receive, onLink, this.#clock, () =>
        this.#tellState(),
      )
    }
    const open = (port: number) =>
      startEmbeddedBroker({ host: mqttHost, port }, this.#receive, onLink, this.#clock)
    try {
      return await open(mqttPort ?? MQTT_PORT)
    } catch (error) {
      const isTaken = error instanceof HubError && error.code === 'E_BROKER_PORT'
      if (!isTaken || rehearsal === null || mqttPort !== null) throw error
      return open(0)
    }
  }

  #openPage(): Promise<void> {
    const setting: PageThreadSetting = {
      dataFolder: this.dataFolder,
      host: this.setting.host,
      port: this.setting.port,
      pageFolder: fileURLToPath(new URL('../page/', import.meta.url)),
      version: this.setting.version,
      isRehearsal: this.setting.rehearsal !== null,
      speed: this.setting.rehearsal?.speed ?? 1,
      startMs: this.#startMs,
      realStartMs: this.#startMs,
    }
    const page = new Worker(new URL('./http/page-thread.js', import.meta.url), { workerData: setting })
    this.#page = page
    return new Promise((resolve, reject) => {
      page.on('message', (message: FromPageThread) => {
        if (message.kind === 'listening') {
          this.#port = message.port
          resolve()
        } else if (message.kind === 'failed')
          reject(
            isErrorCode(message.code)
              ? new HubError(message.code, message.message)
              : new Error(message.message),
          )
        else if (message.kind === 'call') void this.#answer(message)
      })
      page.on('error', (error) => {
        this.#say(`The page thread failed: ${error.stack ?? error.message}`)
        reject(error)
      })
    })
  }

  #tell(message: ToPageThread): void {
    this.#page?.postMessage(message)
  }

  async #answer({ call, name, args }: Extract<FromPageThread, { kind: 'call' }>): Promise<void> {
    try {
      const value = await (this.#desk[name] as (...args: unknown[]) => Promise<unknown>)(...args)
      this.#tell({ kind: 'answer', call, value: value ?? null })
    } catch (error) {
      const code = error instanceof HubError ? error.code : 'E_HUB'
      const faults = error instanceof SurveyRefused ? { faults: [...error.faults] } : {}
      this.#tell({ kind: 'refusal', call, code, message: messageOf(error), ...faults })
    }
  }

  readonly #desk: Desk = {
    saveSurvey: async (survey, why) => {
      this.#changeSurveys(() => this.#keeper.save(survey, why))
    },
    placeProbe: async (survey, placing) => {
      const probe = typeof placing.probe === 'string' ? placing.probe : placing.probe.id
      const why = placing.quadrat === null ? `lifted ${probe}` : `placed ${probe} at ${placing.quadrat}`
      this.#changeSurveys(() => this.#keeper.change(survey, why, (before) => placeProbe(before, placing)))
    },
    addCalibration: async (survey, calibration) => {
      const why = `calibrated ${calibration.probe}`
      this.#changeSurveys(() =>
        this.#keeper.change(survey, why, (before) => addCalibration(before, calibration)),
      )
    },
    withdrawCalibration: async (survey, calibration, reason) => {
      const atMs = this.#clock.nowMs()
      this.#changeSurveys(() =>
        this.#keeper.change(survey, `withdrew calibration ${calibration}`, (before) =>
          withdrawCalibration(before, calibration, reason, atMs),
        ),
      )
    },
    undo: async (survey) => this.#changeSurveys(() => this.#keeper.undo(survey)),
    openPort: async (port) => {
      this.#rememberPorts([...this.#rememberedPorts().filter(({ path }) => path !== port.path), port])
      this.#serial.open(port, this.#boardOnPort(port.path))
      this.#tellState()
    },
    closePort: async (path) => {
      this.#rememberPorts(this.#rememberedPorts().filter((port) => port.path !== path))
      if (!this.#serial.close(path)) throw new HubError('E_PORT_MISSING', `The hub has no port ${path} open.`)
    },
    askBoard: async (board, words) => {
      const text = words === 'time' ? `time ${(this.#clock.nowMs() / 1000).toFixed(3)}` : words
      const source = this.#watch.sourceOf(board)
      if (source?.startsWith('serial:')) this.#serial.say(source.slice('serial:'.length), text)
      else this.mqtt.say(board, text)
    },
    startRehearsal: async (wish) => {
      if (this.setting.rehearsal) throw new HubError('E_REHEARSAL', 'A rehearsal is going on already.')
      this.#change({ ...wish, forSeconds: null })
    },
    endRehearsal: async () => {
      if (!this.setting.rehearsal) throw new HubError('E_REHEARSAL', 'No rehearsal is going on.')
      this.#change(null)
    },
  }

  #changeSurveys<T>(change: () => T): T {
    const answer = change()
    this.#intake.use(appraiseWith(this.#keeper.timelines), this.#keeper.columnsOf)
    this.#openPortsOfSurveys()
    this.#tell({ kind: 'surveys' })
    this.#recomputeSoon()
    return answer
  }

  #boardOnPort(path: string): string | null {
    for (const survey of this.#keeper.timelines.surveys)
      for (const board of survey.boards) if (board.serialPort?.path === path) return board.name
    return null
  }

  #openPortsOfSurveys(): void {
    for (const survey of this.#keeper.timelines.surveys)
      for (const { name, serialPort, sampleIntervalSeconds } of survey.boards)
        if (serialPort) this.#serial.open(serialPort, name, sampleIntervalSeconds)
  }

  #rememberedPorts(): SerialPortSetting[] {
    return JSON.parse(this.#writer.setting('serial-ports') ?? '[]') as SerialPortSetting[]
  }

  #rememberPorts(ports: SerialPortSetting[]): void {
    this.#writer.setSetting('serial-ports', JSON.stringify(ports))
  }

  #startClass(rehearsal: RehearsalSetting, end: () => void): void {
    const startMs = this.#startMs
    const truthFile = join(this.dataFolder, 'truth.jsonl')
    this.#class = startClass(
      rehearsal,
      { brokerPort: this.mqtt.port, startMs, realStartMs: startMs, truthFile },
      {
        survey: (file) => this.#changeSurveys(() => this.#keeper.save(file, 'rehearsal begins')),
        port: (port, board) => {
          this.#serial.open(port, board)
          this.#tellState()
        },
        said: (line) => {
          if (line['kind'] === 'fault' || line['kind'] === 'note') this.#say(`Rehearsal: ${line['text']}`)
          if (line['kind'] === 'done') end()
        },
      },
    )
  }

  #committed: ConstructorParameters<typeof Intake>[4]['committed'] = (items, outcomes) => {
    const rows = []
    let lastMessageId = 0
    for (const [place, item] of items.entries()) {
      const outcome = outcomes[place]!
      if ('signals' in item)
        this.#watch.heard(item.board, item.source, item.arrivedMs, item.startup, item.number)
      if (outcome.kind === 'kept') {
        rows.push(...outcome.readings)
        lastMessageId = outcome.messageId
      } else if (outcome.kind === 'quarantined' && outcome.code === 'E_NAME_CLASH' && item.board)
        this.#watch.clash(item.board)
    }
    if (lastMessageId > 0) this.#tell({ kind: 'committed', rows, lastMessageId })
    this.#tellState()
  }

  #tellState(): void {
    this.#stateIsDue = true
  }

  #tellStateNow(): void {
    const nowMs = Date.now()
    if (!this.#stateIsDue || nowMs - this.#lastToldMs < TELL_EVERY_MS) return
    this.#stateIsDue = false
    this.#lastToldMs = nowMs
    const state: HubState = {
      boards: this.#watch.seen(),
      ports: this.#serial.statuses(),
      broker: { description: this.mqtt.description, ...this.mqtt.status() },
      trouble: this.#trouble,
      isRecomputing: this.#isRecomputing,
    }
    this.#tell({ kind: 'state', state })
  }

  #sealQuietly(): void {
    try {
      this.#writer.seal()
    } catch (error) {
      this.#trouble = messageOf(error)
      this.#tellState()
    }
  }

  /** Works through the recomputing that is due, a little at a time, so that intake is never held up for long. */
  #recomputeSoon(): void {
    if (this.#isRecomputing) return
    this.#isRecomputing = true
    const step = (): void => {
      if (this.#isStopped) return
      try {
        const done = this.#writer.recomputeSome(appraiseWith(this.#keeper.timelines), RECOMPUTE_ROWS)
        if (done === null || done.isLast) {
          this.#isRecomputing = false
          if (done !== null) this.#tell({ kind: 'recomputed' })
          this.#tellState()
        } else setImmediate(step)
      } catch (error) {
        this.#trouble = messageOf(error)
        this.#tellState()
        setTimeout(step, 1000).unref()
      }
    }
    setImmediate(step)
  }

  /** Ends the class, then the sources, then stores what is left, then the page. */
  async stop(): Promise<void> {
    if (this.#isStopped) return
    this.#isStopped = true
    for (const timer of this.#timers) clearInterval(timer)
    await this.#class?.stop()
    this.#serial.closeAll()
    await this.#mqtt?.close()
    const page = this.#page
    if (page) {
      const stopped = new Promise<void>((resolve) => page.once('exit', () => resolve()))
      this.#tell({ kind: 'stop' })
      await Promise.race([stopped, pause(1500).then(() => page.terminate())])
    }
    try {
      this.#intake.drain()
    } finally {
      await this.#recorder?.close()
      this.#writer.close()
      rmSync(join(this.dataFolder, ADDRESS_FILE), { force: true })
      this.#letGo()
    }
  }
}
