import type { Chance } from './field-day-chance.ts'
import { BEGINS_MS, QUADRATS } from './field-day-survey.ts'

const MINUTE_MS = 60_000
const DAY_MS = 24 * 60 * MINUTE_MS
/** the electrode is in the soil so long before the class holds, ms */
const SETTLES_MS = 30_000
const HELD_MS = 20_000
const INSERTION_MS = 60_000

/** A spot reading of the carried pH meter, as the group took it. */
export interface HeldCapture {
  id: string
  group: string
  quadrat: string
  held: { fromMs: number; toMs: number; isSteady: boolean }[]
  sentMs: number
  /** the answer got lost, and the phone sent it again then; null: it did not */
  againMs: number | null
  takenBackMs: number | null
}

/** A value read off the moisture meter and typed in. */
export interface TypedCapture {
  id: string
  quadrat: string
  typedMs: number
  value: number
  sentMs: number
  againMs: number | null
  phoneAheadMs: number
}

/** Three groups hand the meter on along the tape: three insertions at each quadrat, at one only two. */
export function heldCaptures(chance: Chance): HeldCapture[] {
  const [short, takenBack, unsteady, twice] = chance.shuffled(QUADRATS)
  return chance.shuffled(QUADRATS).map((quadrat, place) => {
    const beginsMs = BEGINS_MS + (12 + 20 * place) * MINUTE_MS + chance.whole(0, 120) * 1000
    const insertions = quadrat === short ? 2 : quadrat === unsteady ? 4 : 3
    const held = Array.from({ length: insertions }, (_, index) => {
      const fromMs = beginsMs + index * INSERTION_MS + SETTLES_MS
      return { fromMs, toMs: fromMs + HELD_MS, isSteady: !(quadrat === unsteady && index === 1) }
    })
    const sentMs = held.at(-1)!.toMs + 20_000
    return {
      id: `held-at-${quadrat}`,
      group: `G${1 + Math.floor(place / 3)}`,
      quadrat,
      held,
      sentMs,
      againMs: quadrat === twice ? sentMs + 3 * MINUTE_MS : null,
      takenBackMs: quadrat === takenBack ? sentMs + 5 * MINUTE_MS : null,
    }
  })
}

/** The moisture meter has a way of its own along the tape; its phone sends when it is near the hub. */
export function typedCaptures(chance: Chance): TypedCapture[] {
  const [wrongDay, twice] = chance.shuffled(QUADRATS)
  return chance.shuffled(QUADRATS).map((quadrat, place) => {
    const typedMs = BEGINS_MS + (10 + 15 * place) * MINUTE_MS + chance.whole(0, 59) * 1000
    const sentMs = typedMs + chance.whole(5, 40 * 60) * 1000
    return {
      id: `typed-at-${quadrat}`,
      quadrat,
      typedMs,
      value: Math.round(1000 * (0.2 + 0.02 * QUADRATS.indexOf(quadrat) + 0.01 * chance.share())) / 1000,
      sentMs,
      againMs: quadrat === twice ? sentMs + 7 * MINUTE_MS : null,
      phoneAheadMs: quadrat === wrongDay ? DAY_MS : 0,
    }
  })
}

/** What the electrode gives, mV: in the soil of a quadrat while it is inserted there, in its pot of water otherwise. */
export function millivoltOver(captures: readonly HeldCapture[]): (ms: number) => number {
  const inserted = captures.flatMap(({ quadrat, held }) =>
    held.map(({ fromMs, toMs }) => ({ fromMs: fromMs - SETTLES_MS, toMs, quadrat })),
  )
  return (ms) => {
    const here = inserted.find(({ fromMs, toMs }) => fromMs <= ms && ms < toMs)
    // by about a tenth of a pH from one quadrat to the next: 56.8 mV a pH with the two buffers of the survey
    return here ? 120 - 6 * QUADRATS.indexOf(here.quadrat) : 20
  }
}
