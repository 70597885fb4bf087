import type { ClockCorrection, SurveyFile } from '../contract/survey.ts'
import type { TimeOrigin } from '../store/store.ts'

/** On the wire and in the board before it is sent, s. Common practice, no source. */
export const TRAVEL_SECONDS = 1
/** A board without a crystal counts its seconds by a resistor and a capacitor: about 1 %, 36 s in an hour. */
export const RESISTOR_OSCILLATOR = 0.01
/** …with a crystal 20 to 100 parts in a million; the worse of the two. */
export const CRYSTAL = 100e-6
/** Finer than this two clocks are not told apart by when messages arrive, s. Common practice, no source. */
const FINEST_SECONDS = 0.1
/** From looking at a meter to having typed it, s. Common practice, no source. */
const TYPING_SECONDS = 60

export interface TimeFacts {
  origin: TimeOrigin
  /** from the moment it was true to its arrival, seconds, as the board tells it */
  ageSeconds: number
  /** how long the quickest of its board's newest messages took, seconds; negative when its clock is ahead of the hub's */
  quickestSeconds: number | null
  /** what moved it afterwards */
  correction: Pick<ClockCorrection, 'offsetSeconds' | 'errorSeconds'> | null
  /** read off a meter by a person */
  isTyped: boolean
}

export interface TimeError {
  /** by how much the time of a reading may be wrong either way, seconds; null: it cannot be said */
  seconds: number | null
  /** how that comes about, in words */
  why: string
}

/**
 * How well the time of a reading is known, from where it came.
 * @see the project’s domain map, 2.4: crystal 20–100 ppm, RC oscillator about 1 %
 */
export function timeError(facts: TimeFacts): TimeError {
  if (facts.isTyped)
    return { seconds: TYPING_SECONDS, why: 'typed by a person, at the moment of typing: about a minute' }
  if (facts.correction) return correctedError(facts, facts.correction)
  if (facts.origin === 'shifted to arrival')
    return {
      seconds: null,
      why: 'its board named an impossible time, so it was given that of its arrival: not to be trusted until a clock correction says more',
    }
  return facts.origin === 'board clock' ? clockError(facts.quickestSeconds) : hubTimedError(facts)
}

/** The last correction that can have moved a reading to the time it has now. */
export function correctionThatMoved(
  surveys: readonly SurveyFile[],
  board: string,
  timeMs: number,
): ClockCorrection | null {
  const all = surveys.flatMap(({ clockCorrections }) => clockCorrections ?? [])
  return (
    all.findLast(({ board: of, from, to, offsetSeconds }) => {
      const boardMs = timeMs - Math.round(offsetSeconds * 1000)
      return of === board && Date.parse(from) <= boardMs && boardMs < Date.parse(to)
    }) ?? null
  )
}

function clockError(quickestSeconds: number | null): TimeError {
  if (quickestSeconds === null)
    return {
      seconds: null,
      why: 'by its board’s own clock, which has not been compared with the hub’s since',
    }
  const apart = Math.abs(quickestSeconds)
  const off =
    apart < FINEST_SECONDS
      ? 'agree'
      : `differ by ${inWords(apart)} (its own ${quickestSeconds < 0 ? 'ahead' : 'behind'})`
  return {
    seconds: Math.max(FINEST_SECONDS, apart),
    why: `by its board’s own clock; in the quickest of its newest messages that and the hub’s ${off}`,
  }
}

function hubTimedError({ origin, ageSeconds }: TimeFacts): TimeError {
  if (origin === 'arrival')
    return {
      seconds: TRAVEL_SECONDS,
      why: `by its arrival: ${TRAVEL_SECONDS} s for the way from the probe to the hub, more when the board holds lines back`,
    }
  const age = Math.max(0, ageSeconds)
  const counted = `by its arrival less the ${inWords(age)} the board counted back: ${TRAVEL_SECONDS} s for the way`
  const off = age * RESISTOR_OSCILLATOR
  return {
    seconds: TRAVEL_SECONDS + off,
    why:
      off < FINEST_SECONDS
        ? `${counted}; in so short a time no board counts far wrong`
        : `${counted}, and 1 % of the count when it has no crystal, ${inWords(off)} (with one ${inWords(age * CRYSTAL)})`,
  }
}

function correctedError(
  facts: TimeFacts,
  { offsetSeconds, errorSeconds }: NonNullable<TimeFacts['correction']>,
) {
  const moved = `moved by ${offsetSeconds < 0 ? 'minus ' : ''}${inWords(Math.abs(offsetSeconds))} by a clock correction`
  if (errorSeconds === undefined)
    return { seconds: null, why: `${moved}, and nobody has said how well that is known` }
  const isOwnClock = facts.origin === 'board clock' || facts.origin === 'shifted to arrival'
  const own = isOwnClock ? 0 : (hubTimedError(facts).seconds ?? 0)
  return {
    seconds: own + errorSeconds,
    why: `${moved}, known to ${inWords(errorSeconds)}${own > 0 ? `, and ${inWords(own)} for how it was timed` : ''}`,
  }
}

function inWords(seconds: number): string {
  if (seconds >= 7200) return `${Number((seconds / 3600).toFixed(1))} h`
  if (seconds >= 120) return `${Math.round(seconds / 60)} min`
  return `${Number(seconds.toPrecision(2))} s`
}
