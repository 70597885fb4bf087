import { createInterface, type Interface } from 'node:readline'
import { HubError } from '../errors.ts'

/** Questions in a terminal, and their answers: typed, or from a pipe, of which no line is lost between two questions. */
export class Answers {
  readonly isTyped: boolean
  readonly #terminal: Interface
  readonly #lines: string[] = []
  #waiting: ((line: string | null) => void) | null = null
  #isOver = false

  constructor() {
    this.isTyped = process.stdin.isTTY === true
    this.#terminal = createInterface({ input: process.stdin })
    this.#terminal.on('line', (line) => {
      const waiting = this.#waiting
      this.#waiting = null
      if (waiting) waiting(line)
      else this.#lines.push(line)
    })
    this.#terminal.on('close', () => {
      this.#isOver = true
      this.#waiting?.(null)
      this.#waiting = null
    })
  }

  /** @throws HubError `E_COMMAND` when the input ends before an answer */
  async to(question: string): Promise<string> {
    process.stdout.write(question)
    const line = this.#lines.shift() ?? (this.#isOver ? null : await this.#next())
    if (!this.isTyped) process.stdout.write('\n')
    if (line === null) throw new HubError('E_COMMAND', `The answers end before “${question.trim()}”.`)
    return line.trim()
  }

  /** Calls `then` at the next Enter that a person presses; a pipe presses none. @returns a function that no longer waits */
  onEnter(then: () => void): () => void {
    if (!this.isTyped) return () => {}
    this.#waiting = () => then()
    return () => {
      this.#waiting = null
    }
  }

  close(): void {
    this.#terminal.close()
  }

  #next(): Promise<string | null> {
    return new Promise((resolve) => {
      this.#waiting = resolve
    })
  }
}
