/** A clock on a board, as good as its battery. */
export interface BoardClock {
  /** what it said, in Unix seconds, at a moment of simulated time */
  secondsAt(simulatedMs: number): number
  /** `time …` from the hub, received at a moment of simulated time */
  set(unixSeconds: number, simulatedMs: number): void
}

/**
 * Runs true, and is set when the hub asks for it.
 * @param toleranceSeconds  a smaller difference is the delay of the message, not an error of the clock
 */
export function goodClock(toleranceSeconds: number): BoardClock {
  let aheadMs = 0
  return {
    secondsAt: (simulatedMs) => (simulatedMs + aheadMs) / 1000,
    set: (unixSeconds, simulatedMs) => {
      const difference = unixSeconds * 1000 - simulatedMs - aheadMs
      if (Math.abs(difference) > toleranceSeconds * 1000) aheadMs += difference
    },
  }
}

const year2000Seconds = 946_684_800
const yearSeconds = 365 * 86_400

/**
 * Has lost its battery and forgets what it is told. By turns it counts seconds from power-up as if it were 1970,
 * begins at the year 2000 as many clock chips do, and is a year ahead after a careless setting.
 */
export function deadClock(startMs: number, turnSeconds: number): BoardClock {
  return {
    secondsAt: (simulatedMs) => {
      const elapsed = (simulatedMs - startMs) / 1000
      const turn = Math.floor(elapsed / turnSeconds) % 3
      if (turn === 0) return elapsed
      return turn === 1 ? year2000Seconds + elapsed : simulatedMs / 1000 + yearSeconds
    },
    set: () => {},
  }
}
