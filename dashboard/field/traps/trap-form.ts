import type { SetTrap } from '../../../hub/contract/changes.ts'
import { knownSamplingMethods } from '../../../hub/contract/sampling-methods.ts'
import { momentOf } from '../../bench/wall-time.ts'

/** For a way that is not known here: as often as a live trap. Common practice, no source. */
const OTHER_HOURS = 12
/** When bad weather halves the limit, unless the teacher says otherwise. Common practice, no source. */
export const USUAL_WEATHER = { belowCelsius: '5', aboveCelsius: '25' } as const

export interface TrapForm {
  method: string
  quadrat: string
  /** as a clock on the wall shows it; empty: now */
  setAt: string
  hours: string
  belowCelsius: string
  aboveCelsius: string
  note: string
}

/** Hours within which a trap of this kind is looked at by common practice. */
export function usualHours(method: string): number {
  const words = method.trim().toLowerCase()
  return knownSamplingMethods.find(({ name }) => name === words)?.checkWithinHours ?? OTHER_HOURS
}

/** Ways that leave something standing. */
export const standingMethods: readonly string[] = knownSamplingMethods
  .filter(({ isLeftStanding }) => isLeftStanding)
  .map(({ name }) => name)

/** A wrong date would put the alarm off by days; some minutes are clocks that differ. */
const AHEAD_MS = 15 * 60_000

/** @returns the trap, or what is wrong by field, in words */
export function readTrapForm(
  form: TrapForm,
  by: string,
  nowMs: number,
  zone: string | undefined,
): { trap: SetTrap } | { wrong: Partial<Record<keyof TrapForm, string>> } {
  const wrong: Partial<Record<keyof TrapForm, string>> = {}
  const hours = numberOf(form.hours)
  const below = form.belowCelsius.trim() === '' ? undefined : numberOf(form.belowCelsius)
  const above = form.aboveCelsius.trim() === '' ? undefined : numberOf(form.aboveCelsius)
  const setMs = form.setAt === '' ? nowMs : momentOf(form.setAt, zone)
  if (form.method.trim() === '') wrong.method = 'say what it is'
  if (form.quadrat === '') wrong.quadrat = 'say where it stands'
  if (hours === null || hours <= 0 || hours > 720)
    wrong.hours = 'a number of hours, more than 0 and up to 720'
  if (below === null) wrong.belowCelsius = 'degrees, or nothing'
  if (above === null) wrong.aboveCelsius = 'degrees, or nothing'
  if (typeof below === 'number' && typeof above === 'number' && below >= above)
    wrong.aboveCelsius = 'must be warmer than the cold limit'
  if (setMs === null) wrong.setAt = 'a day and a time'
  else if (setMs > nowMs + AHEAD_MS) wrong.setAt = 'this lies ahead: a trap’s clock begins when it is set'
  if (Object.keys(wrong).length > 0 || hours === null || setMs === null) return { wrong }
  const rule = {
    ...(typeof below === 'number' ? { belowCelsius: below } : {}),
    ...(typeof above === 'number' ? { aboveCelsius: above } : {}),
  }
  return {
    trap: {
      method: form.method.trim(),
      quadrat: form.quadrat,
      setAt: new Date(setMs).toISOString(),
      checkWithinHours: hours,
      ...(Object.keys(rule).length > 0 ? { badWeather: rule } : {}),
      ...(by.trim() === '' ? {} : { by: by.trim() }),
      ...(form.note.trim() === '' ? {} : { note: form.note.trim() }),
    },
  }
}

function numberOf(text: string): number | null {
  const written = text.trim().replace(',', '.').replace('\u2212', '-')
  return /^-?\d+(\.\d+)?$/.test(written) ? Number(written) : null
}
