import { expandedUncertainty, type Fitted } from '../../../calibration/index.ts'
import { type PlotPoint, residualOf } from './plot-points.ts'
import { finestStep } from './value-digits.ts'

/** One place on the fitted curve, with the half-width that holds the truth 95 times in 100. */
export interface CurveSample {
  signal: number
  value: number
  /** null where it cannot be known */
  expanded: number | null
}

export interface Scale {
  low: number
  high: number
  at: (value: number) => number
}

const STEPS = 60

/** The stretch of signals to draw: the points with some air; without points what the sensor usually sends. */
export function signalStretch(
  fitted: Fitted,
  points: readonly PlotPoint[],
  live: number | null,
): [number, number] {
  const all = points.map(({ signal }) => signal)
  if (fitted.signalRange) all.push(fitted.signalRange.low, fitted.signalRange.high)
  if (all.length === 0 || Math.max(...all) - Math.min(...all) < 1e-9)
    all.push(...usualSignals(fitted.signalUnits[0]))
  const [low, high] = [Math.min(...all), Math.max(...all)]
  const air = (high - low) * 0.18
  const isNear = live !== null && live > low - 2 * air && live < high + 2 * air
  const bottom = Math.min(low - air, isNear ? live : low)
  return [low >= 0 && bottom < 0 ? 0 : bottom, Math.max(high + air, isNear ? live : high)]
}

function usualSignals(unit: string | undefined): [number, number] {
  if (unit === 'Cel') return [0, 30]
  if (unit === 'Hz') return [0, 20]
  return unit === 'count' ? [0, 10_000] : [0, 100]
}

export function sampleCurve(fitted: Fitted, [low, high]: readonly [number, number]): CurveSample[] {
  return Array.from({ length: STEPS + 1 }, (_, step) => low + ((high - low) * step) / STEPS).flatMap(
    (signal) => {
      const whole = fitted.signalUnits[0] === 'count' ? Math.round(signal) : signal
      const read = fitted.valueAt(whole)
      if (!('value' in read)) return []
      return [
        {
          signal: whole,
          value: read.value,
          expanded: expandedOf(read.standardUncertainty, read.degreesOfFreedom),
        },
      ]
    },
  )
}

/** Half-width at 95 %; null when there is no uncertainty to widen. */
export function expandedOf(standardUncertainty: number | null, degreesOfFreedom: number): number | null {
  if (standardUncertainty === null || !(standardUncertainty >= 0) || !(degreesOfFreedom > 0)) return null
  return expandedUncertainty(standardUncertainty, degreesOfFreedom)
}

export function scaleOver(numbers: readonly number[], from: number, to: number, air = 0.08): Scale {
  let low = Math.min(...numbers)
  let high = Math.max(...numbers)
  if (!Number.isFinite(low)) [low, high] = [0, 1]
  if (high - low < 1e-12) [low, high] = [low - 0.5, high + 0.5]
  const more = (high - low) * air
  ;[low, high] = [low - more, high + more]
  return { low, high, at: (value) => from + ((value - low) / (high - low)) * (to - from) }
}

/** Round numbers along a scale, some four to seven of them. */
export function roundSteps(
  { low, high }: Pick<Scale, 'low' | 'high'>,
  about = 5,
): { at: number[]; decimals: number } {
  const rough = (high - low) / about
  const order = 10 ** Math.floor(Math.log10(rough))
  const step = order * ([1, 2, 5].find((each) => each * order >= rough) ?? 10)
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  const first = Math.ceil(low / step - 1e-9)
  const last = Math.floor(high / step + 1e-9)
  return { at: Array.from({ length: last - first + 1 }, (_, index) => (first + index) * step), decimals }
}

/** A line through places, as an SVG path. */
export function pathThrough(places: readonly (readonly [number, number])[]): string {
  return places.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('')
}

/** The band between two edges as a closed path; empty without an uncertainty. */
export function bandPath(
  samples: readonly CurveSample[],
  x: Scale,
  y: Scale,
  middle: (sample: CurveSample) => number,
  factor: number,
): string {
  const known = samples.filter((sample) => sample.expanded !== null)
  if (known.length < 2) return ''
  const edge = (sample: CurveSample, side: 1 | -1): [number, number] => [
    x.at(sample.signal),
    y.at((middle(sample) + side * sample.expanded!) * factor),
  ]
  return `${pathThrough([
    ...known.map((sample) => edge(sample, 1)),
    ...known.toReversed().map((sample) => edge(sample, -1)),
  ])}Z`
}

/** How far the lower strip must reach: all residuals, and the band within the points. */
export function residualReach(
  fitted: Fitted,
  samples: readonly CurveSample[],
  points: readonly PlotPoint[],
): number {
  const range = fitted.signalRange
  const inside = samples.filter(({ signal }) => !range || (signal >= range.low && signal <= range.high))
  const sizes = [
    ...points.flatMap((point) => residualOf(fitted, point) ?? []).map(Math.abs),
    ...inside.flatMap(({ expanded }) => expanded ?? []),
  ]
  return Math.max(...sizes, finestStep(fitted.unit)) * 1.15
}
