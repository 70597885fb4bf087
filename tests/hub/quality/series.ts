import type { Finding, Series, Surroundings } from '../../../hub/quality/quality-test.ts'

/** A series a second apart whose signal is its value, unless something else is said. */
export function seriesOf(value: readonly (number | null)[], more: Partial<Series> = {}): Series {
  return {
    timeMs: value.map((_, n) => n * (more.expectedIntervalMs ?? 1000)),
    value,
    signal: value.map((each) => each ?? 0),
    quantity: 'soil_temperature',
    signalUnit: 'Cel',
    expectedIntervalMs: 1000,
    ...more,
  }
}

/** Nothing else is known. */
export function alone(known: Partial<Surroundings> = {}): Surroundings {
  return {
    solarElevationDegrees: () => null,
    sameQuadrat: () => null,
    sameBoardRestarted: () => null,
    neighbours: () => [],
    ...known,
  }
}

/** Flags as the roll-up sees them: a missing value is 9. */
export function flagsOf(findings: readonly Finding[], value: readonly (number | null)[]): number[] {
  return findings.map((finding, n) => {
    if (value[n] === null) return 9
    if (finding === 'not evaluated') return 2
    return finding?.flag ?? 1
  })
}
