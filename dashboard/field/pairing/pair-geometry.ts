import type { LightPair } from '../../../hub/contract/pairing.ts'

export interface PairPlace {
  x: number
  /** of the quadrat’s light and of the open sky’s, on one logarithmic scale; null: none, or dark */
  quadratY: number | null
  openY: number | null
  /** of the percentage, on a scale from 0 of its own */
  percentY: number | null
  /** it counts */
  isCounted: boolean
}

export interface PairPlot {
  places: PairPlace[]
  /** whole decades that the light scale reaches over, lux */
  lux: { low: number; high: number } | null
  /** the top of the percentage scale */
  percentTop: number
}

const PAD = 8

/**
 * Pairs over time in two boxes one above the other: light on a logarithmic scale, because the open sky and the shade of a
 * wood are decades apart, and the percentage below.
 */
export function pairPlot(
  pairs: readonly LightPair[],
  width: number,
  luxHeight: number,
  percentHeight: number,
): PairPlot {
  const lux = pairs.flatMap(({ lux: here, openLux }) => [here, openLux ?? 0]).filter((each) => each > 0)
  const decades = lux.length === 0 ? null : decadesOver(Math.min(...lux), Math.max(...lux))
  const percentTop = niceTop(Math.max(0, ...pairs.map(({ percent }) => percent ?? 0)))
  const times = pairs.map(({ timeMs }) => timeMs)
  const fromMs = Math.min(...times)
  const spanMs = Math.max(...times) - fromMs
  const x = (timeMs: number) =>
    spanMs === 0 ? width / 2 : PAD + ((timeMs - fromMs) / spanMs) * (width - 2 * PAD)
  const luxY = (value: number | null) =>
    value === null || value <= 0 || decades === null
      ? null
      : luxHeight - ((Math.log10(value) - decades.low) / (decades.high - decades.low)) * luxHeight
  return {
    places: pairs.map(({ timeMs, lux: here, openLux, percent, remarks }) => ({
      x: x(timeMs),
      quadratY: luxY(here),
      openY: luxY(openLux),
      percentY: percent === null ? null : percentHeight - (percent / percentTop) * percentHeight,
      isCounted: percent !== null && remarks.length === 0,
    })),
    lux: decades && { low: 10 ** decades.low, high: 10 ** decades.high },
    percentTop,
  }
}

/** Whole powers of ten below and above, at least one apart. */
function decadesOver(least: number, most: number): { low: number; high: number } {
  const low = Math.floor(Math.log10(least))
  return { low, high: Math.max(low + 1, Math.ceil(Math.log10(most))) }
}

/** The next of 1, 1.2, 2, 5, 10 … that is not below; 1 for nothing. */
function niceTop(value: number): number {
  if (value <= 1) return 1
  const decade = 10 ** Math.floor(Math.log10(value))
  return [1, 1.2, 2, 5, 10].map((step) => step * decade).find((step) => step >= value) ?? 10 * decade
}
