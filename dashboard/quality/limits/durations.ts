/** Units a length of time is written in, the longest first. */
export const durationUnits = [
  { name: 'days', ms: 86_400_000 },
  { name: 'h', ms: 3_600_000 },
  { name: 'min', ms: 60_000 },
  { name: 's', ms: 1000 },
  { name: 'ms', ms: 1 },
] as const

export type DurationUnit = (typeof durationUnits)[number]['name']

export interface WrittenDuration {
  number: string
  unit: DurationUnit
}

/** In the longest unit that needs no fraction: 360 000 ms is 6 min. */
export function writtenDuration(ms: number): WrittenDuration {
  if (ms === 0) return { number: '0', unit: 's' }
  const unit = durationUnits.find((each) => Number.isInteger(ms / each.ms)) ?? durationUnits[4]
  return { number: String(ms / unit.ms), unit: unit.name }
}

/** To the millisecond. */
export function durationMs(number: number, unit: DurationUnit): number {
  const { ms } = durationUnits.find(({ name }) => name === unit)!
  return unit === 'ms' ? number : Math.round(number * ms)
}
