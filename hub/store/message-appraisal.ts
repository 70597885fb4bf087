import { COMPANIONS_WITHIN_MS, isNearer } from './readings-to-appraise.ts'
import type { Appraise, Arrival, Circumstances, Worth } from './store.ts'

/** Judges the signals of a message; one may ask what another of the same message is worth. Used for one after the other. */
export class MessageAppraisal {
  #arrival: Arrival | null = null
  #appraise: Appraise | null = null
  /** null: being judged at this moment */
  #worths: (Worth | null | undefined)[] = []
  readonly #circumstances: Circumstances = {
    timeOrigin: 'arrival',
    temperatureOf: (channel, timeMs) => this.#temperatureOf(channel, timeMs),
  }

  begin(arrival: Arrival, appraise: Appraise): void {
    this.#arrival = arrival
    this.#appraise = appraise
    this.#worths = new Array(arrival.signals.length)
    this.#circumstances.timeOrigin = arrival.timeOrigin
  }

  worthOf(place: number): Worth {
    const done = this.#worths[place]
    if (done) return done
    this.#worths[place] = null
    const { board, signals } = this.#arrival!
    const worth = this.#appraise!(board, signals[place]!, this.#circumstances)
    this.#worths[place] = worth
    return worth
  }

  /** Of several in one message, as in a backlog, the one nearest in time; never one that waits for this one itself. */
  #temperatureOf(channel: string, timeMs: number): number | null {
    const { signals } = this.#arrival!
    let nearest = -1
    for (let place = 0; place < signals.length; place++) {
      const signal = signals[place]!
      if (signal.channel !== channel || this.#worths[place] === null) continue
      if (Math.abs(signal.timeMs - timeMs) > COMPANIONS_WITHIN_MS) continue
      if (nearest === -1 || isNearer(signal.timeMs, signals[nearest]!.timeMs, timeMs)) nearest = place
    }
    return nearest === -1 ? null : this.worthOf(nearest).value
  }
}
