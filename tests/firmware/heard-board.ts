import { ReceivedFrames } from '../support/received-frames.ts'
import { SerialBench } from '../support/serial-bench.ts'
import type { EmulatedBoard } from './emulated-board.ts'
import { type Spoken, spoken } from './spoken.ts'

/** The hub's own serial source on a board's port, with the answers in the test's hand. */
export class HeardBoard {
  readonly frames: ReceivedFrames
  readonly bench: SerialBench
  readonly path: string
  isKeeping: boolean

  /** Opens the port. `isKeeping`: whether messages are answered with `kept`; may be changed while it runs. */
  static async on(
    board: EmulatedBoard,
    { isKeeping = true, baudRate = 115_200, silenceMs = 60_000 } = {},
  ): Promise<HeardBoard> {
    const heard = new HeardBoard(board.path, isKeeping, silenceMs)
    heard.bench.source.open({ path: board.path, baudRate }, null)
    await heard.bench.until(board.path, 'open')
    return heard
  }

  private constructor(path: string, isKeeping: boolean, silenceMs: number) {
    this.isKeeping = isKeeping
    this.path = path
    this.frames = new ReceivedFrames(({ bytes, fault }) => {
      const said = fault ? undefined : this.#read(bytes)
      const isNumbered = said?.startup !== undefined && said.message !== undefined
      return {
        error: null,
        replies: this.isKeeping && isNumbered ? [`kept ${said.startup} ${said.message}`] : [],
      }
    })
    this.bench = new SerialBench(this.frames, { greetAfterMs: 60_000, silenceMs })
  }

  say(words: string): void {
    this.bench.source.say(this.path, words)
  }

  /** All that could be read so far, in order. */
  get spoken(): Spoken[] {
    return this.frames.all.flatMap(({ frame }) => (frame.fault ? [] : (this.#read(frame.bytes) ?? [])))
  }

  /** Waits for something the board says from now on. */
  async next(isIt: (said: Spoken) => boolean = () => true): Promise<Spoken> {
    for (let count = this.frames.all.length; ; count++) {
      await this.frames.count(count + 1)
      const { bytes, fault } = this.frames.all[count]!.frame
      const said = fault ? undefined : this.#read(bytes)
      if (said && isIt(said)) return said
    }
  }

  #read(bytes: Uint8Array): Spoken | undefined {
    try {
      return spoken(Buffer.from(bytes).toString('latin1'))
    } catch {
      return undefined
    }
  }
}
