import { chanceOf } from './field-day-chance.ts'
import { type DayMessage, messagesOf } from './field-day-class.ts'
import {
  type HeldCapture,
  heldCaptures,
  millivoltOver,
  type TypedCapture,
  typedCaptures,
} from './field-day-phones.ts'
import { type BoardsPlan, planBoards } from './field-day-plan.ts'
import { BEGINS_MS, DEEP_AT, QUADRATS } from './field-day-survey.ts'

/** Where a standing probe truly was. */
export interface Stay {
  probe: string
  board: string
  quadrat: string
  fromMs: number
  /** null: it is there still */
  toMs: number | null
}

/** A whole field day, as it truly was. */
export interface DayEvents {
  plan: BoardsPlan
  messages: DayMessage[]
  stays: Stay[]
  /** the deep thermometer was taken up and put down again, and nobody pressed “next” */
  unsaid: { probe: string; leftMs: number; arrivedMs: number }
  held: HeldCapture[]
  typed: TypedCapture[]
}

/** @param day  whole number; the same one gives the same day */
export function eventsOf(day: number): DayEvents {
  const chance = chanceOf(day)
  const after = (low: number, high: number) => BEGINS_MS + 10_000 * chance.whole(low, high)
  const [plan, held, typed] = [planBoards(chance), heldCaptures(chance), typedCaptures(chance)]
  const leftMs = after(480, 600)
  const arrivedMs = leftMs + 10_000 * chance.whole(20, 60)
  const deep = { probe: 'TEMP-deep', board: 'peg-deep' }
  return {
    plan,
    held,
    typed,
    messages: messagesOf(plan, chance, millivoltOver(held)),
    stays: [
      ...QUADRATS.map((quadrat, index) => ({
        probe: `TEMP-${index + 1}`,
        board: `peg-${index + 1}`,
        quadrat,
        fromMs: after(1, 40),
        toMs: null,
      })),
      { ...deep, quadrat: DEEP_AT[0], fromMs: after(42, 60), toMs: leftMs },
      { ...deep, quadrat: DEEP_AT[1], fromMs: arrivedMs, toMs: null },
    ],
    unsaid: { probe: deep.probe, leftMs, arrivedMs },
  }
}
