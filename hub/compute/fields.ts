import { z } from 'zod'

/** Any finite number; zod 4 refuses NaN and infinities by itself, JSON cannot hold them. */
export const number = z.number()

/** Advice as plain sentences. */
export const advice = z.array(z.string())

export const verdict = z.enum(['pass', 'warn', 'fail'])

/** A number of a time: any one unit, an ISO 8601 date-time, or a time of day such as 09:30. */
export const moment = z.union([z.number(), z.string().min(1)])

/** A moment as a number: ms for date-times and times of day, as given for numbers; NaN when it cannot be read. */
export function momentToNumber(given: number | string): number {
  if (typeof given === 'number') return given
  const ofDay = /^(\d{1,2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?$/.exec(given.trim())
  if (ofDay === null) return Date.parse(given)
  const [hours, minutes, seconds] = [Number(ofDay[1]), Number(ofDay[2]), Number(ofDay[3] ?? 0)]
  if (hours > 24 || minutes > 59 || seconds >= 60) return Number.NaN
  return ((hours * 60 + minutes) * 60 + seconds) * 1000
}
