import type { Spot } from '../contract/spot.ts'
import { SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import { InboxSpans } from './inbox-spans.ts'
import { KeyTable } from './key-table.ts'
import { MessageAppraisal } from './message-appraisal.ts'
import { type KeptMessage, NumberedMessages } from './numbered-messages.ts'
import { asDataError, openForWriting, type SqliteDatabase } from './open-database.ts'
import { ReadingCounts } from './reading-counts.ts'
import { type Companions, ReadingsToAppraise } from './readings-to-appraise.ts'
import { Reclocking } from './reclocking.ts'
import { Reviewing } from './reviewing.ts'
import { Rolling } from './rolling.ts'
import { RowsAtOnce } from './rows-at-once.ts'
import { SheetTable } from './sheet-table.ts'
import { SpotTable } from './spot-table.ts'
import {
  type Appraise,
  type Arrival,
  type ClockWork,
  type Outcome,
  READINGS_PER_MESSAGE,
  type ReadingRow,
  type Review,
  type Signal,
  type SpanOfChannel,
  type StoreWriter,
  type Unreadable,
} from './store.ts'
import { MESSAGE_COLUMNS, prepareWriterSql, READING_COLUMNS, VALUE_COLUMNS } from './writer-sql.ts'

/** Sealing a larger inbox would hold up ingest for longer than a chart notices (25 ms were measured). */
const SEAL_AT_ROWS = 25_000
/** Rows that one statement stores; more would not make it faster. */
const READINGS_AT_ONCE = 20
const MESSAGES_AT_ONCE = 8

export class SqliteWriter implements StoreWriter {
  readonly #database: SqliteDatabase
  readonly #folder: string
  readonly #boards = new Map<string, number>()
  /** by board, then name and unit: names come from a cache, and are found without being put together anew */
  readonly #channels = new Map<number, Map<string, Map<string, number>>>()
  readonly #calibrations = new Map<string, number>()
  /** by board, then start-up, the earliest time that is known to have been stored for it */
  readonly #beganMs = new Map<number, Map<number, number>>()
  readonly #sql: ReturnType<typeof prepareWriterSql>
  readonly #toAppraise: ReadingsToAppraise
  #companions: { job: number; values: Companions } | null = null
  readonly #reviewing: Reviewing
  readonly #rolling: Rolling
  readonly #counts: ReadingCounts
  readonly #numbered: NumberedMessages
  readonly sheets: SheetTable
  readonly keys: KeyTable
  readonly #spots: SpotTable
  readonly #reclocking: Reclocking
  readonly #messages: RowsAtOnce
  readonly #readings: RowsAtOnce
  readonly #valuesAnew: RowsAtOnce
  /** a transaction has come to nothing, and what is held in memory about the file may be wrong */
  #isOutOfStep = false
  readonly #appraisal = new MessageAppraisal()
  #lastMessageId: number
  #inboxRows: number
  readonly #inboxSpans: InboxSpans
  /** since the recomputing that is due began: readings in all, and done */
  #recomputeTotal: number
  #recomputed = 0

  constructor(folder: string) {
    this.#folder = folder
    this.#database = openForWriting(folder)
    this.#sql = prepareWriterSql(this.#database)
    this.#toAppraise = new ReadingsToAppraise(this.#database, 'reading')
    this.#numbered = new NumberedMessages(this.#database)
    this.#rolling = new Rolling(this.#database)
    this.#counts = new ReadingCounts(this.#database)
    this.#reviewing = new Reviewing(this.#database, this.#rolling)
    this.#spots = new SpotTable(this.#database)
    this.sheets = new SheetTable(this.#database)
    this.keys = new KeyTable(this.#database)
    this.#reclocking = new Reclocking(this.#database, this.#rolling)
    this.#inboxRows = this.#sql.countInbox.get() as number
    this.#lastMessageId = this.#sql.lastMessageId.get() as number
    this.#messages = new RowsAtOnce(this.#database, 'message', MESSAGE_COLUMNS, MESSAGES_AT_ONCE)
    this.#readings = new RowsAtOnce(this.#database, 'inbox', READING_COLUMNS, READINGS_AT_ONCE)
    this.#valuesAnew = new RowsAtOnce(
      this.#database,
      'reading',
      READING_COLUMNS,
      READINGS_AT_ONCE,
      VALUE_COLUMNS,
    )
    this.#inboxSpans = new InboxSpans(this.#database)
    this.#recomputeTotal = this.#countRecompute()
  }

  get isSealDue(): boolean {
    return Math.max(this.#inboxRows, this.#numbered.recent) >= SEAL_AT_ROWS
  }

  commit(
    batch: readonly (Arrival | Unreadable)[],
    appraise: Appraise,
    withReadings: boolean = true,
  ): Outcome[] {
    const outcomes = this.#inTransaction(() => {
      this.#messages.begin()
      this.#readings.begin()
      const outcomes = batch.map((item) =>
        'signals' in item ? this.#keep(item, appraise, withReadings) : this.#quarantine(item),
      )
      this.#finishRows()
      this.#countOutcomes(outcomes)
      return outcomes
    })
    for (const outcome of outcomes) if (outcome.kind === 'kept') this.#inboxRows += outcome.count
    return outcomes
  }

  #inTransaction<T>(work: () => T): T {
    this.#catchUp()
    try {
      return this.#database.transaction(work).immediate()
    } catch (error) {
      this.#isOutOfStep = true
      throw error
    }
  }

  /**
   * After a transaction that came to nothing: what it had made is gone with it, the ids of new boards and channels too. Reading
   * that from the file may fail as well; then it is tried again before anything else is done.
   */
  #catchUp(): void {
    if (!this.#isOutOfStep) return
    this.#lastMessageId = this.#sql.lastMessageId.get() as number
    this.#inboxRows = this.#sql.countInbox.get() as number
    this.#numbered.reload()
    this.#inboxSpans.reload()
    this.#beganMs.clear()
    this.#boards.clear()
    this.#channels.clear()
    this.#calibrations.clear()
    this.#isOutOfStep = false
  }

  #keep(arrival: Arrival, appraise: Appraise, withReadings: boolean): Outcome {
    const { signals, startup, number } = arrival
    const board = this.#boardId(arrival)
    if (number !== null) {
      const before = this.#numbered.find(board, startup, number)
      if (before) return this.#recogniseRepeat(arrival, before)
    }
    const messageId = ++this.#lastMessageId
    const { firstMs, lastMs } = spanOf(arrival)
    this.#messages
      .put(messageId)
      .put(board)
      .put(arrival.source)
      .put(arrival.arrivedMs)
      .put(startup)
      .put(number)
    this.#messages
      .put(firstMs)
      .put(lastMs)
      .put(arrival.timeOrigin)
      .put(arrival.bytes)
      .put(arrival.shiftMs ?? 0)
    if (startup !== null) this.#noteStartUp(board, startup, firstMs)
    if (arrival.about !== null) this.#sql.setAbout.run(arrival.about, board)
    this.#numbered.add(board, startup, number, messageId, signals.length)
    this.#appraisal.begin(arrival, appraise)
    const readings: ReadingRow[] = []
    for (let place = 0; place < signals.length; place++) {
      const { timeMs, signal } = signals[place]!
      const { value, uncertainty, flag, calibrationId, why } = this.#appraisal.worthOf(place)
      const id = messageId * READINGS_PER_MESSAGE + place
      const channel = this.#channelId(board, signals[place]!)
      const calibration = calibrationId === null ? null : this.#calibrationRef(calibrationId)
      this.#inboxSpans.add(channel, timeMs)
      this.#readings.put(channel).put(timeMs).put(id).put(signal)
      this.#readings.put(value).put(uncertainty).put(flag).put(calibration).put(why)
      if (withReadings)
        readings.push({ channel, timeMs, id, signal, value, uncertainty, flag, calibration, why })
    }
    return { kind: 'kept', messageId, count: signals.length, readings }
  }

  #finishRows(): void {
    this.#messages.finish()
    this.#readings.finish()
  }

  #noteStartUp(board: number, startup: number, firstMs: number): void {
    const ofBoard = this.#beganMs.get(board) ?? new Map<number, number>()
    if (firstMs >= (ofBoard.get(startup) ?? Infinity)) return
    this.#sql.addStartUp.run(board, startup, firstMs)
    this.#beganMs.set(board, ofBoard.set(startup, firstMs))
  }

  /** The same numbers with the same signals are a repeat; with other signals, another board has taken the name. */
  #recogniseRepeat(arrival: Arrival, before: KeptMessage): Outcome {
    const stored = this.#signalsOf(before)
    const isSame =
      stored.size === arrival.signals.length &&
      arrival.signals.every((signal, place) => Object.is(stored.get(place), signal.signal + 0))
    if (isSame) return { kind: 'repeat', messageId: before.id }
    return this.#quarantine({
      source: arrival.source,
      board: arrival.board,
      arrivedMs: arrival.arrivedMs,
      code: 'E_NAME_CLASH',
      message: `Board "${arrival.board}" has sent message ${arrival.number} of start-up ${arrival.startup} twice, with different signals.`,
      bytes: arrival.bytes,
    })
  }

  /** The signals of a stored message, by their place in it. */
  #signalsOf({ id, inbox }: KeptMessage): Map<number, number> {
    this.#finishRows()
    const firstId = id * READINGS_PER_MESSAGE
    const lastId = firstId + READINGS_PER_MESSAGE - 1
    let rows = inbox
      ? this.#sql.signalsInInbox.all(inbox.firstRow, inbox.firstRow + inbox.rows - 1)
      : this.#sql.signalsSealed.all({ message: id, firstId, lastId })
    // the first version of the file left readings in the inbox of messages that it counts as sealed
    if (rows.length === 0 && !inbox) rows = this.#sql.signalsLeftInInbox.all(firstId, lastId)
    return new Map((rows as { id: number; signal: number }[]).map((row) => [row.id - firstId, row.signal]))
  }

  #quarantine(item: Unreadable): Outcome {
    const { code, message } = item
    const added = this.#sql.addQuarantine.run(
      item.arrivedMs,
      item.source,
      item.board,
      code,
      message,
      item.bytes,
    )
    return { kind: 'quarantined', quarantineId: Number(added.lastInsertRowid), code, message }
  }

  #countOutcomes(outcomes: readonly Outcome[]): void {
    const counts = { readings: 0, messages: 0, repeats: 0, quarantined: 0 }
    for (const outcome of outcomes) {
      if (outcome.kind === 'kept') {
        counts.messages++
        counts.readings += outcome.count
      } else if (outcome.kind === 'repeat') counts.repeats++
      else counts.quarantined++
    }
    for (const [name, count] of Object.entries(counts)) if (count > 0) this.#sql.addTally.run(name, count)
  }

  #boardId(arrival: Arrival): number {
    let id = this.#boards.get(arrival.board)
    if (id === undefined) {
      this.#sql.addBoard.run(arrival.board, arrival.arrivedMs)
      id = this.#sql.findBoard.get(arrival.board) as number
      this.#boards.set(arrival.board, id)
    }
    return id
  }

  #channelId(board: number, { channel, unit }: Signal): number {
    const known = this.#channels.get(board)?.get(channel)?.get(unit)
    if (known !== undefined) return known
    this.#sql.addChannel.run(board, channel, unit)
    const id = this.#sql.findChannel.get(board, channel, unit) as number
    const ofBoard = this.#channels.get(board) ?? new Map<string, Map<string, number>>()
    this.#channels.set(board, ofBoard.set(channel, (ofBoard.get(channel) ?? new Map()).set(unit, id)))
    return id
  }

  #calibrationRef(calibrationId: string): number {
    let ref = this.#calibrations.get(calibrationId)
    if (ref === undefined) {
      this.#sql.addCalibration.run(calibrationId)
      ref = this.#sql.findCalibration.get(calibrationId) as number
      this.#calibrations.set(calibrationId, ref)
    }
    return ref
  }

  seal(): number {
    this.#catchUp()
    const rows = this.#inboxRows
    if (rows === 0 && this.#numbered.recent === 0) {
      this.#numbered.clear()
      return 0
    }
    this.#reviewing.forget()
    this.#companions = null
    this.#inTransaction(() => {
      for (const { channel, fromMs, toMs } of this.#inboxSpans.ofChannels())
        this.#sql.addReview.run(channel, fromMs, toMs)
      this.#rolling.markInbox(this.#inboxSpans.ofHours(), rows)
      this.#sql.moveInbox.run()
      this.#sql.clearInbox.run()
      this.#numbered.seal()
    })
    this.#numbered.clear()
    this.#inboxSpans.clear()
    this.#inboxRows = 0
    return rows
  }

  surveys(): SurveyFile[] {
    return this.#sql.latestSurveys.all().map((document) => SurveyFile.parse(JSON.parse(document as string)))
  }

  saveSurvey(
    survey: SurveyFile,
    atMs: number,
    why: string,
    recompute: readonly SpanOfChannel[],
    review: readonly SpanOfChannel[] = [],
    reclock: readonly string[] = [],
  ): void {
    this.seal()
    this.#inTransaction(() => {
      this.#sql.addRevision.run(survey.id, survey.id, atMs, why, JSON.stringify(survey))
      for (const span of recompute)
        for (const channel of this.#sql.channelsNamed.all(span.board, span.channel) as number[])
          this.#sql.addRecompute.run(channel, asSafeMs(span.fromMs), asSafeMs(span.toMs))
      for (const span of review)
        for (const channel of this.#sql.channelsNamed.all(span.board, span.channel) as number[])
          this.#sql.addReview.run(channel, asSafeMs(span.fromMs), asSafeMs(span.toMs))
      for (const board of reclock) this.#reclocking.add(board)
    })
    if (recompute.length > 0) this.#recomputeTotal = this.#recomputed + this.#countRecompute()
  }

  revisionBefore(survey: string): { survey: SurveyFile; why: string } | null {
    const [present, before] = this.#sql.lastRevisions.all(survey) as { document: string; why: string }[]
    return present && before
      ? { survey: SurveyFile.parse(JSON.parse(before.document)), why: present.why }
      : null
  }

  recomputeSome(appraise: Appraise, rows: number): { rows: number; isLast: boolean } | null {
    const job = this.#sql.nextRecompute.get() as RecomputeJob | undefined
    if (!job) return null
    this.#reviewing.forget()
    // what is in the inbox came after the change, and was judged by it: saving a survey seals first
    const { channel, board, from_ms: fromMs, from_id: fromId } = job
    const slice = this.#toAppraise.slice(channel, { fromMs, fromId }, job.to_ms, rows)
    const companions = this.#companionsOf(job).begin(slice)
    this.#inTransaction(() => {
      this.#valuesAnew.begin()
      for (const row of slice) {
        const worth = appraise(
          board,
          { channel: job.name, unit: job.unit, timeMs: row.t_ms, signal: row.signal },
          {
            timeOrigin: row.time_origin,
            temperatureOf: (name, timeMs) => companions.nearest(name, row.id, timeMs),
          },
        )
        const { value, uncertainty, flag, calibrationId, why } = worth
        const calibration = calibrationId === null ? null : this.#calibrationRef(calibrationId)
        this.#valuesAnew.put(channel).put(row.t_ms).put(row.id).put(row.signal)
        this.#valuesAnew.put(value).put(uncertainty).put(flag).put(calibration).put(why)
      }
      this.#valuesAnew.finish()
      const last = slice.at(-1)
      if (last) {
        this.#sql.addReview.run(channel, slice[0]!.t_ms, last.t_ms)
        this.#rolling.mark(channel, slice[0]!.t_ms, last.t_ms, slice.length)
      }
      if (slice.length < rows || !last) this.#sql.endRecompute.run(job.id)
      else this.#sql.advanceRecompute.run(last.t_ms, last.id + 1, job.id)
    })
    // the next job may be given the same number
    if (slice.length < rows) this.#companions = null
    this.#recomputed += slice.length
    const isLast = this.#sql.nextRecompute.get() === undefined
    if (isLast) this.#recomputeTotal = this.#recomputed = 0
    return { rows: slice.length, isLast }
  }

  /** Those of one job are kept from one slice to the next, while nothing is stored that they may not know of. */
  #companionsOf({ id, board }: RecomputeJob): Companions {
    if (this.#companions?.job !== id)
      this.#companions = { job: id, values: this.#toAppraise.companions(board) }
    return this.#companions.values
  }

  reclockSome(work: ClockWork): { moved: number; isLast: boolean } | null {
    if (!this.#reclocking.isDue) return null
    this.#reviewing.forget()
    this.#companions = null
    this.seal()
    const done = this.#reclocking.some(work)
    if (done?.isLast) this.#recomputeTotal = this.#recomputed + this.#countRecompute()
    return done
  }

  recomputing(): { left: number; total: number } {
    return { left: Math.max(0, this.#recomputeTotal - this.#recomputed), total: this.#recomputeTotal }
  }

  reviewSome(review: Review, rows = 1000): { changed: number; isLast: boolean } | null {
    return this.#reviewing.some(review, rows)
  }

  rollSome(isWorthIt = false, rows = 10_000): { rows: number } | null {
    return this.#rolling.some(isWorthIt, rows)
  }

  /** Readings that are still to be recomputed. */
  #countRecompute(): number {
    const jobs = this.#sql.allRecompute.all() as Pick<RecomputeJob, 'channel' | 'from_ms' | 'to_ms'>[]
    return jobs.reduce(
      (sum, job) => sum + this.#counts.count(job.channel, job.from_ms, job.to_ms).received,
      0,
    )
  }

  spots(): Spot[] {
    return this.#spots.all()
  }

  addSpot(spot: Spot): boolean {
    return this.#inTransaction(() => this.#spots.add(spot))
  }

  replaceSpot(spot: Spot): void {
    this.#inTransaction(() => this.#spots.replace(spot))
  }

  setting(key: string): string | null {
    return (this.#sql.getSetting.get(key) as string | undefined) ?? null
  }

  setSetting(key: string, value: string): void {
    this.#sql.setSetting.run(key, value)
  }

  /** Tidies up and closes. On a full disk it only closes: in the inbox and the WAL, rows are as safe. */
  close(): void {
    try {
      this.seal()
      this.#database.pragma('wal_checkpoint(TRUNCATE)')
    } catch (error) {
      const known = asDataError(error, this.#folder)
      if (!(known instanceof HubError && known.code === 'E_DISK')) throw known
    } finally {
      this.#database.close()
    }
  }
}

/** From the first to the last of its signals; of a message without any, when it arrived. */
function spanOf({ signals, arrivedMs }: Arrival): { firstMs: number; lastMs: number } {
  if (signals.length === 0) return { firstMs: arrivedMs, lastMs: arrivedMs }
  let firstMs = Infinity
  let lastMs = -Infinity
  for (const { timeMs } of signals) {
    if (timeMs < firstMs) firstMs = timeMs
    if (timeMs > lastMs) lastMs = timeMs
  }
  return { firstMs, lastMs }
}

/** ±infinity as the ends of time that an INTEGER column can hold. */
function asSafeMs(ms: number): number {
  return Math.max(-8.64e15, Math.min(8.64e15, ms))
}

interface RecomputeJob {
  id: number
  channel: number
  from_ms: number
  from_id: number
  to_ms: number
  board: string
  name: string
  unit: string
}
