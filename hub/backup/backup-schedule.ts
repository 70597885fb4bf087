import { rfc3339 } from '../clock.ts'
import { HubError, messageOf } from '../errors.ts'
import { type BackupMade, makeBackup } from './make-backup.ts'

export interface BackupSetting {
  to: string
  everyMinutes: number
  keep: number
}

export interface BackupState {
  to: string
  lastMs: number | null
  lastFile: string | null
  /** what kept the last one from being made; null when it was */
  trouble: string | null
}

/** Makes backups on a schedule; one that fails is said and tried again the next time. */
export class BackupSchedule {
  readonly #dataFolder: string
  readonly #setting: BackupSetting
  readonly #nowMs: () => number
  readonly #changed: () => void
  readonly #timer: NodeJS.Timeout
  #isGoing = false
  #state: BackupState

  constructor(dataFolder: string, setting: BackupSetting, nowMs: () => number, changed: () => void) {
    this.#dataFolder = dataFolder
    this.#setting = setting
    this.#nowMs = nowMs
    this.#changed = changed
    this.#state = { to: setting.to, lastMs: null, lastFile: null, trouble: null }
    this.#timer = setInterval(() => void this.make().catch(() => undefined), setting.everyMinutes * 60_000)
    this.#timer.unref()
  }

  get state(): BackupState {
    return this.#state
  }

  /** @throws HubError `E_BACKUP`; what was wrong is kept in the state as well */
  async make(): Promise<BackupMade> {
    if (this.#isGoing) throw new HubError('E_BACKUP', 'A backup is being made already.')
    this.#isGoing = true
    try {
      const made = await makeBackup(this.#dataFolder, this.#setting.to, this.#setting.keep, this.#nowMs())
      this.#state = { to: this.#setting.to, lastMs: this.#nowMs(), lastFile: made.file, trouble: null }
      return made
    } catch (error) {
      const said = error instanceof HubError ? error.said : messageOf(error)
      this.#state = { ...this.#state, trouble: `${rfc3339(this.#nowMs())}: ${said}` }
      throw error
    } finally {
      this.#isGoing = false
      this.#changed()
    }
  }

  stop(): void {
    clearInterval(this.#timer)
  }
}
