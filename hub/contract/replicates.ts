import { combine, expandedUncertainty } from '../../calibration/index.ts'

/** What the replicates of one spot reading come to. */
export interface ReplicateSummary {
  n: number
  mean: number | null
  /** largest minus smallest; null with fewer than two */
  range: number | null
  /** half the width of the 95 % interval of the mean; null with fewer than two: their spread is not known */
  expanded: number | null
  /** where they differ more than is usual: take more, do not delete */
  warnings: string[]
}

/** Differences between replicates beyond these are told. Common practice, no source. */
const WIDEST_RANGE: Readonly<Record<string, { by: number; isRatio: boolean; text: string }>> = {
  soil_ph: { by: 0.5, isRatio: false, text: 'pH differs by more than 0.5 between replicates' },
  soil_moisture: {
    by: 0.1,
    isRatio: false,
    text: 'moisture differs by more than 0.10 (10 %) between replicates',
  },
  illuminance: { by: 2, isRatio: true, text: 'light differs more than twofold between replicates' },
}

/**
 * Mean, spread and uncertainty of replicates: s/√n with n − 1 degrees of freedom, and the probe’s own standard
 * uncertainty, which all replicates share and no repeating makes smaller, together.
 * @param replicates  those that count, in the unit of the quantity; `uncertainty` is standard (k = 1), null: not known
 * @see JCGM 100:2008 4.2.3 and G.4
 * @example 5.80 5.92 6.04 with 0.038 each: mean 5.92, ± 0.24
 */
export function summariseReplicates(
  quantity: string,
  replicates: readonly { value: number; uncertainty: number | null }[],
): ReplicateSummary {
  const values = replicates.map(({ value }) => value)
  const n = values.length
  const mean = meanOf(values)
  if (mean === null || n < 2) return { n, mean, range: null, expanded: null, warnings: [] }
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1)
  const { standardUncertainty, degreesOfFreedom } = combine([
    { standardUncertainty: Math.sqrt(variance / n), degreesOfFreedom: n - 1 },
    {
      standardUncertainty: meanOf(replicates.flatMap(({ uncertainty }) => uncertainty ?? [])) ?? 0,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    },
  ])
  return {
    n,
    mean,
    range: Math.max(...values) - Math.min(...values),
    expanded: standardUncertainty === 0 ? 0 : expandedUncertainty(standardUncertainty, degreesOfFreedom),
    warnings: rangeWarnings(quantity, values),
  }
}

function rangeWarnings(quantity: string, values: readonly number[]): string[] {
  const widest = WIDEST_RANGE[quantity]
  if (!widest) return []
  const [low, high] = [Math.min(...values), Math.max(...values)]
  // 6.1 − 5.6 is not 0.5 in floating point
  const differs = widest.isRatio ? low > 0 && high / low > widest.by : high - low > widest.by + 1e-9
  return differs ? [widest.text] : []
}

function meanOf(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length
}
