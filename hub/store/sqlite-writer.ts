import type { Spot } from '../contract/spot.ts'
import { SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import { InboxSpans } from './inbox-spans.ts'
import { KeyTable } from './key-table.ts'
import { type KeptMessage, NumberedMessages } from './numbered-messages.ts'
import { asDataError, openForWriting, type SqliteDatabase } from './open-database.ts'
import { ReadingCounts } from './reading-counts.ts'
import { isNearer, ReadingsToAppraise } from './readings-to-appraise.ts'
import { Reclocking } from './reclocking.ts'
import { Reviewing } from './reviewing.ts'
import { Rolling } from './rolling.ts'
import { SheetTable } from './sheet-table.ts'
import { SpotTable } from './spot-table.ts'
import {
  type Appraise,
  type Arrival,
  type ClockShift,
  type Outcome,
  READINGS_PER_MESSAGE,
  type ReadingRow,
  type Review,
  type Signal,
  type SpanOfChannel,
  type StoreWriter,
  type Unreadable,
  type Worth,
} from './store.ts'
import { prepareWriterSql, READINGS_AT_ONCE } from './writer-sql.ts'

/** Sealing a larger inbox would hold up ingest for longer than a chart notices (25 ms were measured). */
const SEAL_AT_ROWS = 25_000
/** columns of the inbox */
const NUMBERS_EACH = 9
const NUMBERS_AT_ONCE = NUMBERS_EACH * READINGS_AT_ONCE

export class SqliteWriter implements StoreWriter {
  readonly #database: SqliteDatabase
  readonly #folder: string
  readonly #boards = new Map<string, number>()
  /** by board, then name and unit: names come from a cache, and are found without being put together anew */
  readonly #channels = new Map<number, Map<string, Map<string, number>>>()
  readonly #calibrations = new Map<string, number>()
  /** by board and start-up, the earliest time that is known to have been stored for it */
  readonly #beganMs = new Map<string, number>()
  readonly #sql: ReturnType<typeof prepareWriterSql>
  readonly #toAppraise: ReadingsToAppraise
  readonly #reviewing: Reviewing
  readonly #rolling: Rolling
  readonly #counts: ReadingCounts
  readonly #numbered: NumberedMessages
  readonly sheets: SheetTable
  readonly keys: KeyTable
  readonly #spots: SpotTable
  readonly #reclocking: Reclocking
  #inboxRows: number
  #lastInboxRow: number
  readonly #inboxSpans: InboxSpans
  /** of the transaction under way: readings that are not yet in the inbox, nine numbers each */
  #unstored: (number | string | null)[] = []
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
    this.#lastInboxRow = this.#sql.lastInboxRow.get() as number
    this.#inboxSpans = new InboxSpans(this.#database)
    this.#recomputeTotal = this.#countRecompute()
  }

  get isSealDue(): boolean {
    return Math.max(this.#inboxRows, this.#numbered.recent) >= SEAL_AT_ROWS
  }

  commit(batch: readonly (Arrival | Unreadable)[], appraise: Appraise): Outcome[] {
    try {
      const outcomes = this.#inTransaction(() => {
        const outcomes = batch.map((item) =>
          'signals' in item ? this.#keep(item, appraise) : this.#quarantine(item),
        )
        this.#storeReadings()
        this.#countOutcomes(outcomes)
        return outcomes
      })
      this.#numbered.keep()
      for (const outcome of outcomes) if (outcome.kind === 'kept') this.#inboxRows += outcome.readings.length
      return outcomes
    } catch (error) {
      // what the transaction had made is gone with it, the ids of new boards and channels too
      this.#numbered.forget()
      this.#unstored = []
      this.#lastInboxRow = this.#sql.lastInboxRow.get() as number
      this.#inboxSpans.reload()
      this.#beganMs.clear()
      this.#boards.clear()
      this.#channels.clear()
      this.#calibrations.clear()
      throw error
    }
  }

  #inTransaction<T>(work: () => T): T {
    return this.#database.transaction(work).immediate()
  }

  #keep(arrival: Arrival, appraise: Appraise): Outcome {
    const board = this.#boardId(arrival)
    if (arrival.number !== null) {
      const before = this.#numbered.find(board, arrival.startup, arrival.number)
      if (before) return this.#recogniseRepeat(arrival, before)
    }
    const times = arrival.signals.map((signal) => signal.timeMs)
    const firstMs = times.length ? Math.min(...times) : arrival.arrivedMs
    const lastMs = times.length ? Math.max(...times) : arrival.arrivedMs
    const messageId = Number(
      this.#sql.addMessage.run(
        board,
        arrival.source,
        arrival.arrivedMs,
        arrival.startup,
        arrival.number,
        firstMs,
        lastMs,
        arrival.timeOrigin,
        arrival.bytes,
        arrival.shiftMs ?? 0,
      ).lastInsertRowid,
    )
    if (arrival.startup !== null) this.#noteStartUp(board, arrival.startup, firstMs)
    if (arrival.about !== null) this.#sql.setAbout.run(arrival.about, board)
    const worths: (Worth | undefined)[] = new Array(arrival.signals.length)
    const worthAt = (place: number): Worth => {
      const done = worths[place]
      if (done) return done
      isBeingAppraised.add(place)
      const { channel, unit, timeMs, signal } = arrival.signals[place]!
      const worth = appraise({ board: arrival.board, channel, unit, timeMs, signal }, circumstances)
      worths[place] = worth
      return worth
    }
    // of several in one message, as in a backlog, the one nearest in time; never one that waits for this one itself
    const isBeingAppraised = new Set<number>()
    const temperatureOf = (channel: string, timeMs: number): number | null => {
      let nearest = -1
      for (const [place, signal] of arrival.signals.entries()) {
        if (signal.channel !== channel || (isBeingAppraised.has(place) && !worths[place])) continue
        if (nearest === -1 || isNearer(signal.timeMs, arrival.signals[nearest]!.timeMs, timeMs))
          nearest = place
      }
      return nearest === -1 ? null : worthAt(nearest).value
    }
    const circumstances = { timeOrigin: arrival.timeOrigin, temperatureOf }
    const readings = arrival.signals.map((signal, place): ReadingRow => {
      const worth = worthAt(place)
      return {
        channel: this.#channelId(board, signal),
        timeMs: signal.timeMs,
        id: messageId * READINGS_PER_MESSAGE + place,
        signal: signal.signal,
        value: worth.value,
        uncertainty: worth.uncertainty,
        flag: worth.flag,
        calibration: worth.calibrationId === null ? null : this.#calibrationRef(worth.calibrationId),
        why: worth.why,
      }
    })
    const firstRow = this.#lastInboxRow + 1
    for (const row of readings) {
      this.#inboxSpans.add(row.channel, row.timeMs)
      this.#unstored.push(
        row.channel,
        row.timeMs,
        row.id,
        row.signal,
        row.value,
        row.uncertainty,
        row.flag,
        row.calibration,
        row.why,
      )
    }
    // rows are numbered as they come: nothing is ever taken from the inbox but all of it
    this.#lastInboxRow += readings.length
    if (this.#unstored.length >= NUMBERS_AT_ONCE) this.#storeReadings()
    if (arrival.number !== null)
      this.#numbered.add(board, arrival.startup, arrival.number, {
        id: messageId,
        inbox: { firstRow, rows: readings.length },
      })
    return { kind: 'kept', messageId, readings }
  }

  #storeReadings(): void {
    const all = this.#unstored
    let at = 0
    for (; at + NUMBERS_AT_ONCE <= all.length; at += NUMBERS_AT_ONCE)
      this.#sql.addReadings.run(all.slice(at, at + NUMBERS_AT_ONCE))
    for (; at < all.length; at += NUMBERS_EACH) this.#sql.addReading.run(all.slice(at, at + NUMBERS_EACH))
    this.#unstored = []
  }

  #noteStartUp(board: number, startup: number, firstMs: number): void {
    const key = `${board}/${startup}`
    if (firstMs >= (this.#beganMs.get(key) ?? Infinity)) return
    this.#sql.addStartUp.run(board, startup, firstMs)
    this.#beganMs.set(key, firstMs)
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
    this.#storeReadings()
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
        counts.readings += outcome.readings.length
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
    const rows = this.#inboxRows
    if (rows === 0 && this.#numbered.recent === 0) return 0
    this.#reviewing.forget()
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
    this.#lastInboxRow = 0
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
    if (this.#inboxRows > 0) this.seal()
    const { channel, board, from_ms: fromMs, from_id: fromId } = job
    const slice = this.#toAppraise.slice(channel, { fromMs, fromId }, job.to_ms, rows)
    const companions = this.#toAppraise.companions(board, slice)
    this.#inTransaction(() => {
      for (const row of slice) {
        const worth = appraise(
          { board, channel: job.name, unit: job.unit, timeMs: row.t_ms, signal: row.signal },
          { timeOrigin: row.time_origin, temperatureOf: (name, timeMs) => companions(name, row.id, timeMs) },
        )
        this.#sql.revalue.run(
          worth.value,
          worth.uncertainty,
          worth.flag,
          worth.calibrationId === null ? null : this.#calibrationRef(worth.calibrationId),
          worth.why,
          channel,
          row.t_ms,
          row.id,
        )
      }
      const last = slice.at(-1)
      if (last) {
        this.#sql.addReview.run(channel, slice[0]!.t_ms, last.t_ms)
        this.#rolling.mark(channel, slice[0]!.t_ms, last.t_ms, slice.length)
      }
      if (slice.length < rows || !last) this.#sql.endRecompute.run(job.id)
      else this.#sql.advanceRecompute.run(last.t_ms, last.id + 1, job.id)
    })
    this.#recomputed += slice.length
    const isLast = this.#sql.nextRecompute.get() === undefined
    if (isLast) this.#recomputeTotal = this.#recomputed = 0
    return { rows: slice.length, isLast }
  }

  reclockSome(shiftOf: ClockShift): { moved: number; isLast: boolean } | null {
    if (!this.#reclocking.isDue) return null
    this.#reviewing.forget()
    this.seal()
    const done = this.#reclocking.some(shiftOf)
    if (done?.isLast) this.#recomputeTotal = this.#recomputed + this.#countRecompute()
    return done
  }

  recomputing(): { left: number; total: number } {
    return { left: Math.max(0, this.#recomputeTotal - this.#recomputed), total: this.#recomputeTotal }
  }

  reviewSome(review: Review): { changed: number; isLast: boolean } | null {
    return this.#reviewing.some(review)
  }

  rollSome(isWorthIt = false): { rows: number } | null {
    return this.#rolling.some(isWorthIt)
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
