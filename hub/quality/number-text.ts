/** A number as a reason quotes it: five significant digits at most. */
export function shown(value: number): string {
  return String(Number(value.toPrecision(5)))
}

/** A span of time as a reason quotes it. */
export function shownSpan(spanMs: number): string {
  if (spanMs < 120_000) return `${shown(spanMs / 1000)} s`
  if (spanMs < 7_200_000) return `${shown(spanMs / 60_000)} min`
  return `${shown(spanMs / 3_600_000)} h`
}
