import type { ColumnMap } from '../contract/survey.ts'
import { HubError, messageOf } from '../errors.ts'
import type { Frame, Settled } from '../sources/source.ts'
import { sayDataError } from '../store/open-database.ts'
import type { Appraise, Arrival, ClockShift, Outcome, StoreWriter, Unreadable } from '../store/store.ts'
import { readFrame } from './read-frame.ts'

/** A transaction takes at most this many messages: while the rest is stored, boards go on with what has been. */
const BATCH = 400
/** While the disk takes nothing, this many messages are held in memory; boards that ask for a receipt keep the rest. */
const HELD_AT_MOST = 20_000
/** …and this many bytes of them, because a message may be long */
const HELD_BYTES_AT_MOST = 32_000_000
const RETRY_MS = 1000
const BUSY_MS = 1000

/** As it came: read only when it is its turn, so that little is kept for what waits. */
interface Waiting {
  frame: Frame
  settled: Settled | undefined
}

export interface IntakeEvents {
  /** after each commit: what was stored, in the order received */
  committed(items: readonly (Arrival | Unreadable)[], outcomes: readonly Outcome[]): void
  /** whether anybody looks at what is stored the moment it is */
  isWatched(): boolean
  /** storing began to fail, or works again (null) */
  trouble(text: string | null): void
}

/**
 * From frames to stored readings. Everything that arrives within one turn of the event loop is committed together
 * (group commit), and only then acknowledged.
 */
export class Intake {
  readonly #writer: StoreWriter
  readonly #events: IntakeEvents
  readonly #folder: string
  #appraise: Appraise
  #columnsOf: (board: string) => ColumnMap | undefined
  #clockShift: ClockShift = () => 0
  #queue: Waiting[] = []
  #queueBytes = 0
  #isScheduled = false
  #trouble: string | null = null
  #refused = 0
  #receivedMs = -Infinity

  constructor(
    writer: StoreWriter,
    folder: string,
    appraise: Appraise,
    columnsOf: (board: string) => ColumnMap | undefined,
    events: IntakeEvents,
  ) {
    this.#writer = writer
    this.#folder = folder
    this.#appraise = appraise
    this.#columnsOf = columnsOf
    this.#events = events
  }

  /** From now on signals are judged by these; what is stored already is recomputed by the writer. */
  use(
    appraise: Appraise,
    columnsOf: (board: string) => ColumnMap | undefined,
    clockShift: ClockShift = () => 0,
  ): void {
    this.#appraise = appraise
    this.#columnsOf = columnsOf
    this.#clockShift = clockShift
  }

  receive = (frame: Frame, settled?: Settled): void => {
    if (this.#queue.length >= HELD_AT_MOST || this.#queueBytes >= HELD_BYTES_AT_MOST) {
      this.#refused++
      settled?.(new HubError('E_DISK', 'The hub cannot store anything at the moment.'), noReceipts)
      return
    }
    this.#receivedMs = performance.now()
    this.#queue.push({ frame, settled })
    this.#queueBytes += frame.bytes.length
    this.#schedule()
  }

  /** something has come in within the last second */
  get isBusy(): boolean {
    return performance.now() - this.#receivedMs < BUSY_MS
  }

  /** more is waiting than fits into one transaction */
  get isBehind(): boolean {
    return this.#queue.length > BATCH
  }

  /** Commits what is waiting; throws when the store does. For the end of the hub's life. */
  drain(): void {
    while (this.#queue.length > 0) if (!this.#flush()) throw new HubError('E_DISK', this.#trouble ?? '')
  }

  #schedule(): void {
    if (this.#isScheduled || this.#trouble !== null) return
    this.#isScheduled = true
    setImmediate(() => {
      this.#isScheduled = false
      if (this.#flush() && this.#queue.length > 0) this.#schedule()
    })
  }

  #flush(): boolean {
    const batch = this.#queue.slice(0, BATCH)
    if (batch.length === 0) return true
    const items: (Arrival | Unreadable)[] = []
    /** for each frame, where its items end */
    const ends = batch.map(({ frame }) => {
      for (const item of this.#read(frame)) {
        if ('signals' in item) putRight(item, this.#clockShift)
        items.push(item)
      }
      return items.length
    })
    let outcomes: Outcome[]
    try {
      outcomes = this.#writer.commit(items, this.#appraise, this.#events.isWatched())
    } catch (error) {
      this.#failed(error)
      return false
    }
    this.#queue.splice(0, batch.length)
    for (const { frame } of batch) this.#queueBytes -= frame.bytes.length
    for (const [place, { settled }] of batch.entries())
      settled?.(null, () => items.slice(ends[place - 1] ?? 0, ends[place]).flatMap(receipt))
    this.#events.committed(items, outcomes)
    if (this.#writer.isSealDue) this.#seal()
    return true
  }

  /** A frame that cannot even be looked at must not stand in the way of those behind it. */
  #read(frame: Frame): (Arrival | Unreadable)[] {
    try {
      return readFrame(frame, this.#columnsOf)
    } catch (error) {
      const { source, board, arrivedMs, bytes } = frame
      return [{ source, board, arrivedMs, code: 'E_LINE_UNREADABLE', message: messageOf(error), bytes }]
    }
  }

  #seal(): void {
    try {
      this.#writer.seal()
    } catch (error) {
      // the rows stay in the inbox, where they are as safe; the next commit will say if the disk is full
      this.#events.trouble(sayDataError(error, this.#folder))
    }
  }

  #failed(error: unknown): void {
    this.#trouble = sayDataError(error, this.#folder)
    this.#events.trouble(this.#trouble)
    setTimeout(() => {
      this.#trouble = null
      if (!this.#flush()) return
      const lost =
        this.#refused === 0 ? null : `${this.#refused} messages without a receipt could not be kept.`
      this.#refused = 0
      this.#events.trouble(lost)
      this.#schedule()
    }, RETRY_MS).unref()
  }
}

/** Moves what comes from a board whose clock is known to be wrong, as what came before was moved. */
function putRight(arrival: Arrival, shiftOf: ClockShift): void {
  const first = arrival.signals.reduce((least, { timeMs }) => Math.min(least, timeMs), Infinity)
  const shiftMs = first === Infinity ? 0 : shiftOf(arrival.board, first)
  if (shiftMs === 0) return
  arrival.shiftMs = shiftMs
  for (const signal of arrival.signals) signal.timeMs += shiftMs
}

const noReceipts = () => []

/** The line that tells a board it may forget a message: whether stored now, stored before, or in quarantine. */
function receipt(item: Arrival | Unreadable): string[] {
  return 'signals' in item && item.number !== null ? [`kept ${item.startup} ${item.number}`] : []
}
