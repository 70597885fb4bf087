import type { Frame, Receive, Settled } from '../../hub/sources/source.ts'

export interface Received {
  frame: Frame
  settle: Settled
}

/** The far side of a source: what it has handed over, in order, and a way to wait for more. */
export class ReceivedFrames {
  readonly all: Received[] = []
  readonly #waiting: { count: number; resolve: () => void }[] = []
  readonly #answer: (frame: Frame, place: number) => { error: Error | null; replies: string[] } | null

  /** @param answer what each frame is settled with at once; null leaves it to the test */
  constructor(
    answer: (frame: Frame, place: number) => { error: Error | null; replies: string[] } | null = () => ({
      error: null,
      replies: [],
    }),
  ) {
    this.#answer = answer
  }

  receive: Receive = (frame, settle = () => {}) => {
    this.all.push({ frame, settle })
    const answer = this.#answer(frame, this.all.length - 1)
    if (answer) settle(answer.error, () => answer.replies)
    for (const waiting of this.#waiting.filter(({ count }) => this.all.length >= count)) waiting.resolve()
  }

  /** Waits until so many frames have come. */
  async count(count: number): Promise<Frame[]> {
    if (this.all.length < count) await new Promise<void>((resolve) => this.#waiting.push({ count, resolve }))
    return this.all.map(({ frame }) => frame)
  }

  texts(): string[] {
    return this.all.map(({ frame }) => Buffer.from(frame.bytes).toString('latin1'))
  }
}
