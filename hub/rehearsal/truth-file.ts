import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs'
import type { Message } from './backlog.ts'
import type { BoardPlan } from './board-plan.ts'
import type { Sample } from './sampling.ts'

export interface Counts {
  /** numbered messages and lines of columns, repeats not counted */
  messages: number
  signals: number
  repeats: number
  acknowledged: number
  garbage: number
  dropped: number
}

/**
 * The truth file: one JSON object a line, written before the bytes it tells of are sent. Times `at` and `t` are
 * simulated epoch milliseconds.
 *
 * | line | meaning |
 * | --- | --- |
 * | `{"kind":"scenario", seed, start, speed, realStart, intervalSeconds, faults, bench, boards, calibrations}` | first line: the class, and how each probe really is; `bench` is where each channel is at first when the class begins on the bench, else null |
 * | `{board, startup, message, channel, unit, t, signal, truth, quantity, quadrat, fault}` | no `kind`: one signal, when its message is sent for the first time. `startup` and `message` are null for columns; `signal` is the number as printed; `truth` what a perfect probe would read, in the quantity's unit, at once and not after settling. On the bench `quadrat` is null, and `truth` that of the medium: null in distilled water and in air |
 * | `{"kind":"about", board, startup, message, text}` | an answer to `who` |
 * | `{"kind":"repeat", board, startup, message, fault, at}` | the same message sent once more: by the fault `repeat`, or (`fault` null) because no answer came |
 * | `{"kind":"acknowledged", board, startup, message, at}` | the hub said it is durable (PUBACK or `kept`); once per message |
 * | `{"kind":"dropped", board, startup, message}` | never to be sent: the backlog was full |
 * | `{"kind":"garbage", board, what, bytes, at}` | a line or payload that is no message, base64, without the line's end |
 * | `{"kind":"cut", board, bytes, at}` | the beginning of a line, ended by pulling the cable |
 * | `{"kind":"put", board, channel, where, celsius, lux, metresPerSecond, at}` | a probe was put there; only the number that belongs to the medium is given. With `ph` in a buffer or water, `temperature` is there as well |
 * | `{"kind":"fault", fault, board, at, text}` | a fault as it happens; `board` is null for one of the whole class |
 */
export class TruthFile {
  readonly counts: Counts = { messages: 0, signals: 0, repeats: 0, acknowledged: 0, garbage: 0, dropped: 0 }
  #descriptor: number | null

  constructor(path: string) {
    this.#descriptor = openSync(path, 'w')
  }

  note(line: Record<string, unknown>): void {
    this.#append([line])
  }

  sending(plan: BoardPlan, message: Message, at: number, fault: string | null): void {
    const which = { board: plan.name, startup: message.startup, message: message.number }
    message.timesSent += 1
    if (message.timesSent > 1) {
      this.counts.repeats += 1
      this.#append([{ kind: 'repeat', ...which, fault, at }])
      return
    }
    if (message.about !== null) this.#append([{ kind: 'about', ...which, text: message.about }])
    this.#measured(message.sample, which)
  }

  sendingColumns(plan: BoardPlan, sample: Sample): void {
    this.#measured(sample, { board: plan.name, startup: null, message: null })
  }

  acknowledged(plan: BoardPlan, startup: number, message: number, at: number): void {
    this.counts.acknowledged += 1
    this.#append([{ kind: 'acknowledged', board: plan.name, startup, message, at }])
  }

  dropped(plan: BoardPlan, message: Message): void {
    this.counts.dropped += 1
    this.#append([{ kind: 'dropped', board: plan.name, startup: message.startup, message: message.number }])
  }

  garbage(plan: BoardPlan, what: string, bytes: Buffer, at: number): void {
    this.counts.garbage += 1
    this.#append([{ kind: 'garbage', board: plan.name, what, bytes: bytes.toString('base64'), at }])
  }

  cut(plan: BoardPlan, bytes: Buffer, at: number): void {
    this.#append([{ kind: 'cut', board: plan.name, bytes: bytes.toString('base64'), at }])
  }

  close(): void {
    if (this.#descriptor === null) return
    fsyncSync(this.#descriptor)
    closeSync(this.#descriptor)
    this.#descriptor = null
  }

  #measured(sample: Sample, which: Record<string, unknown>): void {
    this.counts.messages += 1
    this.counts.signals += sample.records.length
    this.#append(
      sample.records.map(({ channel, unit, signal, truth, quantity, quadrat, fault }) => ({
        ...which,
        channel,
        unit,
        t: sample.instantMs,
        signal,
        truth,
        quantity,
        quadrat,
        fault,
      })),
    )
  }

  #append(lines: readonly object[]): void {
    if (this.#descriptor === null || lines.length === 0) return
    writeSync(this.#descriptor, lines.map((line) => `${JSON.stringify(line)}\n`).join(''))
  }
}
