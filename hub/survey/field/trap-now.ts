import { knownSamplingMethods } from '../../contract/sampling-methods.ts'
import type { Trap, TrapNow, TrapWeather } from '../../contract/trap.ts'
import { trapStateAt } from '../../contract/trap-state.ts'

const HOUR_MS = 3_600_000
/** in bad weather a trap is looked at after this part of its time */
const BAD_WEATHER_PART = 0.5

/**
 * A trap at a moment: in which state it is, and by when it must have been looked at. Its limit runs in hours of true
 * time from the setting or the last look, whatever the clocks on the wall do meanwhile.
 * @param weather  coldest and warmest of the last hour, °C
 * @param nowMs  UTC ms
 */
export function trapNow(trap: Trap, weather: TrapWeather, nowMs: number): TrapNow {
  const setMs = Date.parse(trap.setAt)
  const lastCheck = trap.checks.at(-1)
  const lastMs = lastCheck ? Date.parse(lastCheck.at) : setMs
  const isClosed = lastCheck?.isClosed === true
  const bad = isClosed ? null : badWeather(trap, weather)
  const limitHours = trap.checkWithinHours * (bad === null ? 1 : BAD_WEATHER_PART)
  const dueMs = isClosed ? null : lastMs + limitHours * HOUR_MS
  return {
    trap,
    state: trapStateAt({ setMs, dueMs, limitHours }, nowMs),
    holdsAnimals: holdsAnimals(trap.method),
    dueMs,
    limitHours,
    weather: bad === null ? null : `${bad}: the limit is halved to ${hours(limitHours)}`,
    exposedHours: Math.max(0, (isClosed ? lastMs : nowMs) - setMs) / HOUR_MS,
  }
}

/** A way of catching that is not known here is taken to hold animals: that errs on their side. */
export function holdsAnimals(method: string): boolean {
  const words = method.trim().toLowerCase()
  return knownSamplingMethods.find(({ name }) => name === words)?.holdsAnimals ?? true
}

function badWeather({ badWeather: rule }: Trap, weather: TrapWeather): string | null {
  const { coldestCelsius, warmestCelsius } = weather
  if (rule?.belowCelsius !== undefined && coldestCelsius !== null && coldestCelsius < rule.belowCelsius)
    return `${degrees(coldestCelsius)} in the last hour, colder than ${degrees(rule.belowCelsius)}`
  if (rule?.aboveCelsius !== undefined && warmestCelsius !== null && warmestCelsius > rule.aboveCelsius)
    return `${degrees(warmestCelsius)} in the last hour, warmer than ${degrees(rule.aboveCelsius)}`
  return null
}

function degrees(celsius: number): string {
  return `${Number(celsius.toFixed(1))} °C`
}

function hours(count: number): string {
  return `${Number(count.toFixed(1))} h`
}

const URGENCY: Readonly<Record<TrapNow['state'], number>> = {
  overdue: 0,
  due: 1,
  set: 2,
  'not-set-yet': 3,
  closed: 4,
}

/** The most urgent first; those with live animals before the others of the same state. */
export function byUrgency(one: TrapNow, other: TrapNow): number {
  return (
    URGENCY[one.state] - URGENCY[other.state] ||
    Number(other.holdsAnimals) - Number(one.holdsAnimals) ||
    (one.dueMs ?? 0) - (other.dueMs ?? 0)
  )
}
