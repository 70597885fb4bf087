/** What is read may not take longer: a stranger's line must not hold up the others. */
export const HANGS_MS = 50
/** A pause of the machine makes anything slow once; what is slow by itself is slow again. */
const AGAIN = 3

/** Remembers the input that took longest, by the shortest of a few readings of it. */
export class Slowest {
  ms = 0
  input: Uint8Array = new Uint8Array(0)

  async of(input: Uint8Array, read: (input: Uint8Array) => unknown): Promise<void> {
    let best = Number.POSITIVE_INFINITY
    for (let again = 0; again < AGAIN && best > Math.max(this.ms, 1); again++) {
      const beganMs = performance.now()
      const began = process.cpuUsage()
      const answer = read(input)
      if (answer instanceof Promise) await answer
      const { user, system } = process.cpuUsage(began)
      // the processor's time too: on a busy machine others have most of the clock's
      best = Math.min(best, performance.now() - beganMs, (user + system) / 1000)
    }
    if (best <= this.ms) return
    this.ms = best
    this.input = input
  }
}

/** Runs a decoder over many inputs. @throws Error with the input that it failed on */
export async function readMany(
  count: number,
  make: (place: number) => Uint8Array,
  read: (input: Uint8Array) => unknown,
): Promise<Slowest> {
  const slowest = new Slowest()
  for (let place = 0; place < count; place++) {
    const input = make(place)
    try {
      await slowest.of(input, read)
    } catch (error) {
      const shown = JSON.stringify(Buffer.from(input).toString('latin1')).slice(0, 600)
      throw new Error(`input ${place}: ${shown}`, { cause: error })
    }
  }
  return slowest
}

/** On the long run the numbers are of interest. */
export function tell(name: string, { ms, input }: Slowest): void {
  if (process.env['TUSSOCK_FUZZ'] === undefined) return
  console.log(
    `${name}: slowest ${ms.toFixed(2)} ms, ${input.length} bytes: ${JSON.stringify(Buffer.from(input).toString('latin1')).slice(0, 200)}`,
  )
}
