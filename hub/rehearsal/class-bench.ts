import { type BenchFaults, noBenchFaults } from './bench-faults.ts'
import { benchAtFirst, type Channel, channels, isBeaker, type Medium, soil } from './bench-media.ts'
import type { BoardPlan } from './board-plan.ts'
import type { Immersion } from './immersion.ts'

/** Where every probe of the class is and was. */
export interface Bench {
  readonly faults: BenchFaults
  /** oldest first, the first from −∞ */
  immersions(plan: BoardPlan, channel: Channel): readonly Immersion[]
}

const alwaysInSoil: readonly Immersion[] = [{ medium: soil, fromSeconds: Number.NEGATIVE_INFINITY }]

export const allInTheField: Bench = { faults: noBenchFaults, immersions: () => alwaysInSoil }

/** What happened to the thermometer of a board when its electrode was put somewhere. */
export type ThermometerMove = 'joins' | 'returns' | null

/**
 * The bench of the class, and who puts what where. The class holds electrode and thermometer in a beaker together:
 * the thermometer goes there with the electrode, and back to where it was when the electrode leaves the beakers.
 */
export class ClassBench implements Bench {
  readonly faults: BenchFaults
  readonly #histories = new Map<string, Immersion[]>()
  /** where the thermometer of a board was put for itself */
  readonly #thermometerPlaces = new Map<string, Medium>()
  /** boards whose thermometer is in the beaker of their electrode */
  readonly #joined = new Set<string>()

  constructor(plans: readonly BoardPlan[], faults: BenchFaults, begins: 'in the field' | 'on the bench') {
    this.faults = faults
    for (const { name } of plans) {
      for (const channel of channels) {
        const medium = begins === 'on the bench' ? benchAtFirst[channel] : soil
        this.#immerse(name, channel, medium, Number.NEGATIVE_INFINITY)
        if (channel === 'temperature') this.#thermometerPlaces.set(name, medium)
      }
    }
  }

  /** A twin is not at the bench: whoever gave it its name knows nothing of it. */
  immersions(plan: BoardPlan, channel: Channel): readonly Immersion[] {
    return plan.isTwin ? alwaysInSoil : this.#historyOf(plan.name, channel)
  }

  put(board: string, channel: Channel, medium: Medium, elapsedSeconds: number): ThermometerMove {
    this.#immerse(board, channel, medium, elapsedSeconds)
    if (channel === 'temperature') {
      this.#thermometerPlaces.set(board, medium)
      this.#joined.delete(board)
    }
    if (channel !== 'ph') return null
    if (isBeaker(medium) && medium.celsius !== undefined) {
      this.#joined.add(board)
      this.#immerse(board, 'temperature', { where: 'bath', celsius: medium.celsius }, elapsedSeconds)
      return 'joins'
    }
    if (!this.#joined.delete(board)) return null
    this.#immerse(board, 'temperature', this.#thermometerPlaces.get(board) ?? soil, elapsedSeconds)
    return 'returns'
  }

  #immerse(board: string, channel: Channel, medium: Medium, elapsedSeconds: number): void {
    const history = this.#historyOf(board, channel)
    // a computer's clock that was set back does not undo what was done
    const fromSeconds = Math.max(elapsedSeconds, history.at(-1)?.fromSeconds ?? elapsedSeconds)
    history.push({ medium, fromSeconds })
  }

  #historyOf(board: string, channel: Channel): Immersion[] {
    const key = `${board}/${channel}`
    const history = this.#histories.get(key) ?? []
    this.#histories.set(key, history)
    return history
  }
}
