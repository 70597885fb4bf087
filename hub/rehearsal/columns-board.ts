import type { BoardPlan } from './board-plan.ts'
import type { BoardSurroundings, ClassBoard } from './class-board.ts'
import { columnsLine } from './columns-line.ts'
import type { Sample } from './sampling.ts'
import { SerialCable } from './serial-cable.ts'

const latestRealMs = 250

/** A plain sketch: prints its columns and keeps nothing. What nobody hears is lost; it obeys no request. */
export class ColumnsBoard implements ClassBoard {
  readonly plan: BoardPlan
  readonly waiting = 0
  readonly #around: BoardSurroundings
  readonly #cable: SerialCable

  constructor(plan: BoardPlan, around: BoardSurroundings) {
    this.plan = plan
    this.#around = around
    this.#cable = new SerialCable(plan, around.tell, { onBytes: () => {}, onListened: () => {} })
  }

  switchOn(): Promise<void> {
    return this.#cable.plugIn()
  }

  switchOff(): Promise<void> {
    return this.#cable.remove()
  }

  take(sample: Sample): void {
    const { clock, truth } = this.#around
    // what could not be printed at its moment is not printed later: the line carries no time
    const isLate = lateRealMs(clock, sample) > latestRealMs
    if (!this.#cable.isHeard || isLate) return
    truth.sendingColumns(this.plan, sample)
    this.#cable.writeLine(Buffer.from(columnsLine(sample, (sample.instantMs - clock.startMs) / 1000)))
  }

  sendGarbage(what: string, bytes: Buffer): boolean {
    if (!this.#cable.isHeard) return false
    this.#around.truth.garbage(this.plan, what, bytes, this.#around.clock.now())
    this.#cable.writeLine(bytes)
    return true
  }

  repeatLatest(): boolean {
    return false
  }

  breakLink(): boolean {
    return false
  }
}

function lateRealMs(clock: BoardSurroundings['clock'], sample: Sample): number {
  return (clock.now() - sample.instantMs) / clock.speed
}
