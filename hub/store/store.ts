import type { Flag } from '../contract/flag.ts'
import type { Spot } from '../contract/spot.ts'
import type { SurveyFile } from '../contract/survey.ts'
import type { SheetTable } from './sheet-table.ts'

/** A reading's id is its message's id × this + its place in the message. */
export const READINGS_PER_MESSAGE = 1024

/** How the time of a message's signals came about, from the most to the least trusted. */
export type TimeOrigin = 'board clock' | 'board seconds' | 'arrival' | 'shifted to arrival'

/** A numeric signal as the board sent it, with its place in the message. */
export interface Signal {
  channel: string
  unit: string
  timeMs: number
  signal: number
}

/** What came in one message of one board, ready to be stored. */
export interface Arrival {
  source: string
  board: string
  arrivedMs: number
  startup: number | null
  number: number | null
  timeOrigin: TimeOrigin
  bytes: Uint8Array
  signals: Signal[]
  about: string | null
  /** by how much its times were moved already, because its board's clock is known to be wrong */
  shiftMs?: number
}

/** Something that could not be read: kept with its bytes, its time and the reason. */
export interface Unreadable {
  source: string
  board: string | null
  arrivedMs: number
  code: string
  message: string
  bytes: Uint8Array
}

export type Outcome =
  /** `readings` only where they were asked for */
  | { kind: 'kept'; messageId: number; count: number; readings: ReadingRow[] }
  | { kind: 'repeat'; messageId: number }
  | { kind: 'quarantined'; quarantineId: number; code: string; message: string }

/** A reading as it is stored. `why` is JSON of its flag's reasons, or null. */
export interface ReadingRow {
  channel: number
  timeMs: number
  id: number
  signal: number
  value: number | null
  uncertainty: number | null
  flag: Flag
  calibration: number | null
  why: string | null
}

/** What a signal turns out to be worth: everything of a reading that can be computed again. */
export interface Worth {
  value: number | null
  uncertainty: number | null
  flag: Flag
  calibrationId: string | null
  why: string | null
}

/** What came with a signal, as far as it bears on what that is worth. */
export interface Circumstances {
  timeOrigin: TimeOrigin
  /** what another channel of the board measured in the same message, nearest to a time */
  temperatureOf: (channel: string, timeMs: number) => number | null
}

/** The judgement that intake lends to the writer: pure, called inside the transaction that stores the reading. */
export type Appraise = (board: string, signal: Signal, circumstances: Circumstances) => Worth

/** By how much a message is to be moved, ms, by the board's own time of its first signal. */
export type ClockShift = (board: string, boardMs: number) => number

/** What is to be known about boards while their messages are moved in time. */
export interface ClockWork {
  shiftOf: ClockShift
  /** the channel's values are worked out with a temperature of the same board, which therefore comes first */
  isCompensated(board: string, channel: string): boolean
}

export interface SpanOfChannel {
  board: string
  channel: string
  fromMs: number
  toMs: number
}

export interface Tallies {
  readings: number
  messages: number
  repeats: number
  quarantined: number
}

/** Readings of one channel as the quality tests of series see them; equally long, times rising. */
export interface SeriesColumns {
  timeMs: number[]
  signal: number[]
  value: (number | null)[]
}

/** A stored reading that the quality tests of series judge. */
export interface ReadingInSeries {
  timeMs: number
  id: number
  signal: number
  value: number | null
  flag: Flag
  why: string | null
}

export interface ChannelNamed {
  board: string
  channel: string
  unit: string
}

/** Values of other channels, for tests that compare. Times rising, nulls left out. */
export interface Archive {
  /** all of the span, and perhaps some before and after it */
  values(
    board: string,
    channel: string,
    fromMs: number,
    toMs: number,
  ): { timeMs: readonly number[]; value: readonly number[] }
  /** when messages of a new start-up began, rising */
  restarts(board: string, fromMs: number, toMs: number): number[]
}

/** So many readings away, from there so long, and from there so many further, but none further than `mostMs`. */
export interface Reach {
  ms: number
  readings: number
  mostMs: number
}

/** The quality tests of series, as the writer runs them: pure but for what they ask of the archive. */
export interface Review {
  /** how far a finding may depend on readings before and after it */
  reach(channel: ChannelNamed, fromMs: number, toMs: number): { before: Reach; after: Reach }
  /**
   * @param readings  in time order, those that are to be judged and as many around them as was asked for
   * @param from  the place among them of the first that is to be judged
   * @param judged  what was found of these so far
   * @returns for each reading that is judged its flag and reasons anew
   */
  run(
    channel: ChannelNamed,
    readings: SeriesColumns,
    from: number,
    judged: readonly ReadingInSeries[],
    archive: Archive,
  ): readonly { flag: Flag; why: string | null }[]
}

/** The one writer. Everything it has said yes to is durable. */
export interface StoreWriter {
  /**
   * All or nothing; one outcome per item, in order.
   * @param withReadings  whether the outcomes tell what was stored: while nobody looks, making that is a waste
   */
  commit(batch: readonly (Arrival | Unreadable)[], appraise: Appraise, withReadings?: boolean): Outcome[]
  /** the inbox is large enough to be sealed now */
  readonly isSealDue: boolean
  /** Moves what is in the inbox to its place by channel and time. @returns rows moved */
  seal(): number
  surveys(): SurveyFile[]
  /** `recompute` in the order it is to be done: what others are compensated by comes first */
  saveSurvey(
    survey: SurveyFile,
    atMs: number,
    why: string,
    recompute: readonly SpanOfChannel[],
    review?: readonly SpanOfChannel[],
    /** boards whose clock corrections have changed */
    reclock?: readonly string[],
  ): void
  /** The revision before the present one, and why the present one was made; null when there is none. */
  revisionBefore(survey: string): { survey: SurveyFile; why: string } | null
  /** Does up to `rows` of the recomputing that is due. @returns null when nothing is due */
  recomputeSome(appraise: Appraise, rows: number): { rows: number; isLast: boolean } | null
  /** Moves some messages to the times that the clock corrections give them. @returns null when nothing is due */
  reclockSome(work: ClockWork): { moved: number; isLast: boolean } | null
  /** readings still to be recomputed, and how many there were when the work began */
  recomputing(): { left: number; total: number }
  /**
   * Runs the tests over up to `rows` readings of the spans that are due.
   * @returns how many flags came out differently, or null when none is due
   */
  reviewSome(review: Review, rows?: number): { changed: number; isLast: boolean } | null
  /**
   * Brings some of the rollups that charts are drawn from up to date.
   * @param isWorthIt  whether or not so much has changed that it is time
   * @returns null when nothing is due
   */
  rollSome(isWorthIt?: boolean, rows?: number): { rows: number } | null
  spots(): Spot[]
  /** @returns false when one of that id is kept already; then nothing is changed */
  addSpot(spot: Spot): boolean
  replaceSpot(spot: Spot): void
  /** sheets of the study, whole; nothing of them is deleted */
  readonly sheets: SheetTable
  setting(key: string): string | null
  setSetting(key: string, value: string): void
  close(): void
}
