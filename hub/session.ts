import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { AccessSecrets } from './access/access-file.ts'
import { BoardKeys } from './access/board-keys.ts'
import { answerDesk } from './answer-desk.ts'
import { BackupSchedule, type BackupSetting } from './backup/backup-schedule.ts'
import { type Clock, rehearsalClock, rfc3339, systemClock } from './clock.ts'
import { type ClockJump, ClockWatch } from './clock-watch.ts'
import type { SerialPortSetting } from './contract/survey.ts'
import { HubError } from './errors.ts'
import type { HubState } from './http/desk.ts'
import { PageWorker } from './http/page-worker.ts'
import { appraiseWith } from './intake/appraise.ts'
import { BoardWatch } from './intake/board-watch.ts'
import { Intake, type IntakeEvents } from './intake/intake.ts'
import { nameIn } from './intake/name-in.ts'
import { Recomputing } from './intake/recomputing.ts'
import { isTypedSource } from './intake/typed-frame.ts'
import { EventLog } from './log/event-log.ts'
import { whatChanged } from './log/what-changed.ts'
import { reviewWith } from './quality/review.ts'
import { type RehearsalSetting, type RunningClass, startClass } from './rehearse.ts'
import { startBrokerThread } from './sources/broker-worker.ts'
import { CaptureRecorder } from './sources/capture.ts'
import { KeptPorts } from './sources/kept-ports.ts'
import { listPorts } from './sources/list-ports.ts'
import type { MqttSource } from './sources/mqtt-source.ts'
import { defaultTimings } from './sources/one-port.ts'
import type { Finding } from './sources/returning-ports.ts'
import { SerialSource } from './sources/serial-source.ts'
import type { Receive } from './sources/source.ts'
import { ADDRESS_FILE, holdFolder } from './store/hold-folder.ts'
import { asDataError, sayDataError } from './store/open-database.ts'
import { SqliteWriter } from './store/sqlite-writer.ts'
import type { ReadingRow } from './store/store.ts'
import { SurveyKeeper } from './survey/keep-surveys.ts'

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
  backup: BackupSetting | null
  secrets: AccessSecrets
  tls: { cert: string; key: string } | null
  /** for MQTT over TLS, when there is a certificate */
  mqttsPort: number
  /** boards without a key may come in */
  mayBoardsBeAnonymous: boolean
}

/** What a session needs of whoever started it. */
export interface SessionEvents {
  say(line: string): void
  /** the page asks for another session: a rehearsal, or (null) the class's own data */
  change(rehearsal: RehearsalSetting | null): void
  /** a rehearsal of limited time is over */
  end(): void
}

export const MQTT_PORT = 1883
const CLOCK_JUMPS = 'clock-jumps'
/** the tests that compare a reading with its neighbours run after this, so flags by them are at most this late */
const SEAL_EVERY_MS = 15_000
const TELL_EVERY_MS = 500

/** One hub on one data folder, from start to stop: builds every real thing and wires it by hand. */
export class Session {
  readonly dataFolder: string
  readonly #setting: HubSetting
  readonly #events: SessionEvents
  readonly #clock: Clock
  readonly #startMs = Date.now()
  readonly #letGo: () => void
  readonly #writer: SqliteWriter
  readonly #keeper: SurveyKeeper
  readonly #intake: Intake
  readonly #recomputing: Recomputing
  readonly #watch = new BoardWatch()
  readonly #log: EventLog
  #told: HubState | null = null
  /** the newest message that this session has stored */
  #lastMessageId = 0
  readonly #clockWatch: ClockWatch
  readonly #keys: BoardKeys
  readonly #backups: BackupSchedule | null
  readonly #recorder: CaptureRecorder | null
  readonly #receive: Receive
  readonly #serial: SerialSource
  readonly #ports: KeptPorts
  readonly #timers: NodeJS.Timeout[] = []
  #mqtt: MqttSource | null = null
  #page: PageWorker | null = null
  #class: RunningClass | null = null
  #port = 0
  #trouble: string | null = null
  #sealTrouble: string | null = null
  #stateIsDue = false
  #isStopped = false

  static async start(setting: HubSetting, events: SessionEvents): Promise<Session> {
    const session = new Session(setting, events)
    try {
      await session.#open()
      return session
    } catch (error) {
      await session.stop()
      throw error
    }
  }

  private constructor(setting: HubSetting, events: SessionEvents) {
    this.#setting = setting
    this.#events = events
    const { rehearsal } = setting
    const stamp = rfc3339(this.#startMs).replace(/[:.]/g, '-')
    this.dataFolder = rehearsal ? join(setting.dataFolder, 'rehearsals', stamp) : setting.dataFolder
    this.#clock = rehearsal ? rehearsalClock(this.#startMs, rehearsal.speed, this.#startMs) : systemClock
    this.#letGo = holdFolder(this.dataFolder)
    this.#log = new EventLog(this.dataFolder, Date.now)
    try {
      this.#writer = new SqliteWriter(this.dataFolder)
    } catch (error) {
      this.#letGo()
      throw error
    }
    this.#clockWatch = this.#watchClock()
    this.#keys = new BoardKeys(this.#writer.keys, rehearsal !== null || setting.mayBoardsBeAnonymous)
    this.#backups =
      setting.backup && new BackupSchedule(this.dataFolder, setting.backup, Date.now, () => this.#tellState())
    this.#keeper = new SurveyKeeper(this.#writer, () => this.#clock.nowMs())
    const appraise = () => appraiseWith(this.#keeper.timelines)
    const trouble = (text: string | null) => {
      this.#trouble = text
      this.#tellState()
    }
    this.#intake = new Intake(this.#writer, this.dataFolder, appraise(), this.#keeper.columnsOf, {
      committed: (items, outcomes) => this.#committed(items, outcomes),
      isWatched: () => this.#page?.isWatched ?? false,
      trouble,
    })
    const review = () => reviewWith(this.#keeper.timelines)
    const clockWork = () => this.#keeper.clockWork
    this.#recomputing = new Recomputing(this.#writer, this.dataFolder, appraise, review, clockWork, {
      isIntakeBehind: () => this.#intake.isBehind,
      isIntakeBusy: () => this.#intake.isBusy,
      moved: () => this.#tellState(),
      finished: () => this.#page?.tell({ kind: 'recomputed' }),
      trouble,
    })
    this.#recorder = this.#startRecorder()
    this.#receive = (frame, settled) => {
      this.#recorder?.record(frame)
      this.#intake.receive(frame, settled)
    }
    const finding: Finding = {
      list: () => listPorts(),
      nameIn,
      moved: (from, to) => this.#ports.moved(from, to),
      identified: (path, board, identity) => this.#ports.identified(path, board, identity),
      identityBefore: (path, board) => this.#ports.identityBefore(path, board),
    }
    this.#serial = new SerialSource(
      this.#receive,
      this.#clock,
      () => this.#tellState(),
      defaultTimings,
      // a rehearsal opens no port of this machine but those it has made itself
      rehearsal ? null : finding,
    )
    this.#ports = new KeptPorts(this.#serial, this.#writer, this.#keeper)
    // before the first source is opened: what comes is judged, and its clock put right, from the first message on
    this.#judgeAnew()
  }

  get port(): number {
    return this.#port
  }

  get address(): string {
    const { host } = this.#setting
    return `${this.#setting.tls ? 'https' : 'http'}://${host.includes(':') ? `[${host}]` : host}:${this.#port}`
  }

  get mqtt(): MqttSource {
    return this.#mqtt!
  }

  async #open(): Promise<void> {
    this.#mqtt = await this.#openMqtt()
    this.#page = this.#openPage()
    this.#port = await this.#page.listening
    this.#ports.openAll(this.#setting.serialPorts)
    const whereabouts = JSON.stringify({ address: this.address, pid: process.pid })
    try {
      writeFileSync(join(this.dataFolder, ADDRESS_FILE), whereabouts)
    } catch (error) {
      throw asDataError(error, this.dataFolder)
    }
    this.#timers.push(setInterval(() => this.#seal(), SEAL_EVERY_MS))
    this.#timers.push(setInterval(() => this.#tellStateIfDue(), TELL_EVERY_MS))
    if (this.#setting.rehearsal) this.#class = this.#startClass(this.#setting.rehearsal)
    this.#recomputing.begin()
    this.#log.write({
      level: 'info',
      what: 'hub',
      said: `started, version ${this.#setting.version}, at ${this.address}`,
    })
  }

  /** What the clock was set by is remembered, because it may be needed long after. */
  #watchClock(): ClockWatch {
    const kept = this.#writer.setting(CLOCK_JUMPS)
    return new ClockWatch(kept === null ? [] : (JSON.parse(kept) as ClockJump[]), (jumps) => {
      this.#writer.setSetting(CLOCK_JUMPS, JSON.stringify(jumps))
      this.#tellState()
    })
  }

  #startRecorder(): CaptureRecorder | null {
    const { recordTo } = this.#setting
    if (recordTo === null) return null
    const recorder = new CaptureRecorder(recordTo)
    recorder.onError((error) =>
      this.#failed('recording', `Recording to ${recordTo} has ended: ${error.message}`),
    )
    return recorder
  }

  async #openMqtt(): Promise<MqttSource> {
    const { brokerUrl, mqttHost, mqttPort, rehearsal } = this.#setting
    const onLink = (board: string, isUp: boolean) => {
      this.#watch.linked(board, 'mqtt', isUp)
      this.#tellState()
    }
    if (brokerUrl !== null && rehearsal === null) {
      const { useOutsideBroker } = await import('./sources/outside-broker.ts')
      return useOutsideBroker(brokerUrl, this.#mqttClientId(), this.#receive, onLink, this.#clock, () =>
        this.#tellState(),
      )
    }
    const certificate = this.#setting.tls
    const tls = certificate && { ...certificate, port: this.#setting.mqttsPort }
    const startMs = this.#startMs
    const clock = rehearsal && { startMs, speed: rehearsal.speed, realStartMs: startMs }
    const open = (port: number) =>
      startBrokerThread({ host: mqttHost, port, tls, clock }, this.#keys, this.#receive, onLink, () =>
        this.#tellState(),
      )
    try {
      return await open(mqttPort ?? MQTT_PORT)
    } catch (error) {
      const isTaken = error instanceof HubError && error.code === 'E_BROKER_PORT'
      if (!isTaken || rehearsal === null || mqttPort !== null) throw error
      return open(0)
    }
  }

  /** The same at every start, so that an outside broker keeps what was published while the hub was away. */
  #mqttClientId(): string {
    const known = this.#writer.setting('mqtt-client')
    if (known !== null) return known
    const made = `tussock-hub-${Math.random().toString(36).slice(2, 10)}`
    this.#writer.setSetting('mqtt-client', made)
    return made
  }

  #openPage(): PageWorker {
    const { host, port, version, rehearsal } = this.#setting
    const desk = answerDesk({
      keeper: this.#keeper,
      sheets: this.#writer.sheets,
      backups: this.#backups,
      keys: this.#keys,
      ports: this.#ports,
      nowMs: () => this.#clock.nowMs(),
      surveysChanged: () => this.#surveysChanged(),
      spotsChanged: () => this.#spotsChanged(),
      receive: this.#receive,
      stateChanged: () => this.#tellState(),
      say: (board, words) => this.#sayTo(board, words),
      rehearsal,
      simulatedClass: () => this.#class,
      change: (wanted) => this.#events.change(wanted),
    })
    return new PageWorker(
      {
        dataFolder: this.dataFolder,
        host,
        port,
        pageFolder: fileURLToPath(new URL('../page/', import.meta.url)),
        version,
        isRehearsal: rehearsal !== null,
        speed: rehearsal?.speed ?? 1,
        startMs: this.#startMs,
        realStartMs: this.#startMs,
        secrets: this.#setting.secrets,
        tls: this.#setting.tls,
      },
      desk,
      () => this.#lastMessageId,
      (error) => this.#failed('page', `The page thread failed: ${error.stack ?? error.message}`),
    )
  }

  #failed(what: string, said: string): void {
    this.#log.write({ level: 'error', what, said })
    this.#events.say(said)
  }

  #judgeAnew(): void {
    const { timelines, columnsOf, clockShift } = this.#keeper
    this.#intake.use(appraiseWith(timelines), columnsOf, clockShift)
  }

  /** Where a reading belongs has changed, but not what it is worth. */
  #spotsChanged(): void {
    this.#judgeAnew()
    this.#page?.tell({ kind: 'spots' })
  }

  #surveysChanged(): void {
    this.#judgeAnew()
    this.#ports.openOfSurveys()
    this.#page?.tell({ kind: 'surveys' })
    this.#recomputing.begin()
  }

  #sayTo(board: string, words: string): void {
    const source = this.#watch.sourceOf(board)
    if (source?.startsWith('serial:')) this.#serial.say(source.slice('serial:'.length), words)
    else this.mqtt.say(board, words)
  }

  #startClass(rehearsal: RehearsalSetting): RunningClass {
    const startMs = this.#startMs
    const truthFile = join(this.dataFolder, 'truth.jsonl')
    const at = { brokerPort: this.mqtt.port, startMs, realStartMs: startMs, truthFile }
    return startClass(rehearsal, at, {
      survey: (file) => {
        this.#keeper.save(file, 'rehearsal begins')
        this.#surveysChanged()
      },
      port: (port, board) => {
        this.#serial.open(port, board)
        this.#tellState()
      },
      said: (line) => {
        const { kind, text } = line
        if (kind === 'fault' || kind === 'note') this.#events.say(`Rehearsal: ${text}`)
        if (kind === 'done') this.#events.end()
      },
    })
  }

  #committed: IntakeEvents['committed'] = (items, outcomes) => {
    const rows: ReadingRow[] = []
    for (const [place, item] of items.entries()) {
      const outcome = outcomes[place]!
      if ('signals' in item && !isTypedSource(item.source))
        this.#watch.heard(
          item.board,
          item.source,
          item.arrivedMs,
          item.startup,
          item.number,
          outcome.kind === 'repeat',
        )
      if (outcome.kind === 'kept') {
        for (const reading of outcome.readings) rows.push(reading)
        this.#lastMessageId = outcome.messageId
      } else if (outcome.kind === 'quarantined' && outcome.code === 'E_NAME_CLASH' && item.board)
        this.#watch.clash(item.board)
    }
    if (this.#page?.isWatched)
      this.#page.tell({ kind: 'committed', rows, lastMessageId: this.#lastMessageId })
    this.#tellState()
  }

  /** Pages are told at most twice a second: boards, ports and counts change with every message. */
  #tellState(): void {
    this.#stateIsDue = true
  }

  #tellStateIfDue(): void {
    if (!this.#stateIsDue) return
    this.#stateIsDue = false
    const state = this.#state()
    for (const event of whatChanged(this.#told, state)) this.#log.write(event)
    this.#told = state
    this.#page?.tell({ kind: 'state', state })
  }

  #state(): HubState {
    return {
      boards: this.#watch.seen(),
      ports: this.#serial.statuses(),
      broker: { description: this.mqtt.description, ...this.mqtt.status() },
      trouble: this.#trouble ?? this.#sealTrouble,
      isRecomputing: this.#recomputing.isGoing,
      recomputing: this.#writer.recomputing(),
      clockJumps: this.#clockWatch.jumps,
      backup: this.#backups?.state ?? null,
      boardsWithKey: this.#keys.boards(),
    }
  }

  #seal(): void {
    try {
      if (this.#writer.seal() > 0) this.#recomputing.begin(true)
      this.#sealTrouble = null
    } catch (error) {
      // the rows stay in the inbox, where they are as safe
      this.#sealTrouble = sayDataError(error, this.dataFolder)
    }
    this.#tellState()
  }

  /** Ends all that comes in, and stores what is left; whoever is slow to go is not waited for. */
  async stop(): Promise<void> {
    if (this.#isStopped) return
    this.#isStopped = true
    const begunMs = performance.now()
    for (const timer of this.#timers) clearInterval(timer)
    this.#recomputing.stop()
    this.#clockWatch.stop()
    this.#backups?.stop()
    this.#serial.closeAll()
    const others = Promise.all([this.#class?.stop(), this.#page?.stop()])
    await this.#mqtt?.close()
    try {
      this.#intake.drain()
      const ms = Math.round(performance.now() - begunMs)
      this.#log.write({
        level: 'info',
        what: 'hub',
        said: `stopping: all that came in is stored, after ${ms} ms`,
      })
    } finally {
      await others
      await this.#recorder?.close()
      this.#writer.close()
      rmSync(join(this.dataFolder, ADDRESS_FILE), { force: true })
      this.#letGo()
    }
  }
}
