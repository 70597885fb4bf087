import type { z } from 'zod'
import type { AccessSecrets } from '../access/access-file.ts'
import type { BackupState } from '../backup/backup-schedule.ts'
import type { BackupMade } from '../backup/make-backup.ts'
import type { ClockJump } from '../clock-watch.ts'
import type {
  AddCalibration,
  AddCheck,
  AddClockCorrection,
  AddDecision,
  AmendPlacement,
  CheckTrap,
  PlaceProbe,
  PutProbe,
  RehearsalWish,
  SetDrift,
  SetProbeRole,
  SetTrap,
} from '../contract/changes.ts'
import type { KeepPlan } from '../contract/plan-api.ts'
import type { SpeciesAnswers } from '../contract/species.ts'
import type { AddSpot, AmendSpot } from '../contract/spot.ts'
import type { QualitySettings, SerialPortSetting, SurveyFile } from '../contract/survey.ts'
import type { BoardSeen } from '../intake/board-watch.ts'
import type { PortStatus } from '../sources/one-port.ts'
import type { ReadingRow } from '../store/store.ts'

/** What the page side may ask of the hub's other thread, where the one writer and the boards are. */
export interface Desk {
  saveSurvey(survey: SurveyFile, why: string): Promise<void>
  /** @returns what it changed, in plain words */
  keepPlan(survey: string, plan: KeepPlan): Promise<string[]>
  placeProbe(survey: string, placing: PlaceProbe): Promise<void>
  amendPlacement(survey: string, amendment: AmendPlacement): Promise<void>
  /** @returns false when it was kept before */
  addSpot(survey: string, sent: AddSpot): Promise<boolean>
  amendSpot(survey: string, spot: string, wish: AmendSpot): Promise<void>
  /** @returns its id */
  addClockCorrection(survey: string, correction: AddClockCorrection): Promise<string>
  removeClockCorrection(survey: string, correction: string): Promise<void>
  addCalibration(survey: string, calibration: AddCalibration): Promise<void>
  withdrawCalibration(survey: string, calibration: string, reason: string): Promise<void>
  addCheck(survey: string, check: AddCheck): Promise<void>
  setDrift(survey: string, asked: SetDrift): Promise<void>
  /** @returns its id */
  addDecision(survey: string, decision: AddDecision): Promise<string>
  takeBackDecision(survey: string, decision: string, by: string | undefined): Promise<void>
  setQuality(survey: string, settings: QualitySettings): Promise<void>
  withdrawProbe(survey: string, probe: string, reason: string | null): Promise<void>
  /** @returns its id */
  addSheet(
    survey: string,
    sheet: { kind: 'species' | 'animals'; name: string; by?: string | undefined; bytes: Uint8Array },
  ): Promise<number>
  answerSheet(survey: string, sheet: number, answers: SpeciesAnswers): Promise<void>
  removeSheet(survey: string, sheet: number, isRemoved: boolean): Promise<void>
  setProbeRole(survey: string, probe: string, role: SetProbeRole): Promise<void>
  /** @returns what was taken back */
  undo(survey: string): Promise<string>
  /** @returns its id */
  setTrap(survey: string, trap: SetTrap): Promise<string>
  checkTrap(survey: string, trap: string, check: CheckTrap): Promise<void>
  /** @returns what was taken back */
  undoTrap(survey: string, trap: string): Promise<string>
  makeBackup(): Promise<BackupMade>
  /** @returns the key, shown this once */
  makeBoardKey(board: string): Promise<string>
  removeBoardKey(board: string): Promise<void>
  openPort(setting: SerialPortSetting): Promise<void>
  closePort(path: string): Promise<void>
  askBoard(board: string, words: string): Promise<void>
  startRehearsal(wish: z.infer<typeof RehearsalWish>): Promise<void>
  endRehearsal(): Promise<void>
  /** @returns what the simulated class says it has done */
  putProbe(wish: PutProbe): Promise<string>
}

/** What the page side is told without asking: states change too often to be fetched. */
export interface HubState {
  boards: BoardSeen[]
  ports: PortStatus[]
  broker: { description: string; state: 'open' | 'gone'; trouble: string | null }
  trouble: string | null
  isRecomputing: boolean
  recomputing: { left: number; total: number }
  clockJumps: readonly ClockJump[]
  backup: BackupState | null
  boardsWithKey: readonly string[]
}

export type ToPageThread =
  | { kind: 'committed'; rows: ReadingRow[]; lastMessageId: number }
  | { kind: 'state'; state: HubState }
  | { kind: 'surveys' }
  | { kind: 'spots' }
  | { kind: 'recomputed' }
  | { kind: 'answer'; call: number; value: unknown }
  | {
      kind: 'refusal'
      call: number
      code: string
      message: string
      faults?: { path: string; message: string }[]
    }
  | { kind: 'stop' }

export type FromPageThread =
  | { kind: 'call'; call: number; name: keyof Desk; args: unknown[] }
  | { kind: 'listening'; port: number }
  | { kind: 'failed'; code: string; message: string }
  /** whether any page is open: only then need it be told what is committed */
  | { kind: 'watched'; isWatched: boolean }
  | { kind: 'stopped' }

/** What the page thread is started with. */
export interface PageThreadSetting {
  dataFolder: string
  host: string
  port: number
  pageFolder: string
  version: string
  isRehearsal: boolean
  speed: number
  startMs: number
  realStartMs: number
  secrets: AccessSecrets
  /** certificate and key as PEM; null: plain HTTP */
  tls: { cert: string; key: string } | null
}
