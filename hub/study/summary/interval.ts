import { combine, coverageFactor } from '../../../calibration/index.ts'
import type { Method } from '../../contract/quantity.ts'
import { standardDeviation } from '../statistics/deviations.ts'

/**
 * Pushing a pH electrode into soil adds to what the electrode itself does: contact, stones, wetness. ±0.3 pH at about
 * 95 % is common practice for direct insertion, no source.
 */
const DIRECT_PH_STANDARD_UNCERTAINTY = 0.15

/** Logged readings that follow each other say less than this many independent ones: then their spread says nothing of the mean. */
const FEWEST_INDEPENDENT = 3

export interface MeanInterval {
  effectiveN: number
  samplingUncertainty: number | null
  probeUncertainty: number | null
  methodUncertainty: number | null
  expanded: number | null
  degreesOfFreedom: number | null
}

/**
 * Uncertainty of the mean of values at one quadrat: their spread, and what they share.
 * @param autocorrelation  of neighbours in time, for logged readings; null for insertions, which are independent. Of logged
 *   readings worth fewer than three independent ones no interval is given: with one degree of freedom it is wider than the value
 * @param probe  standard uncertainties of the values, which come from one calibration and do not average out
 * @see JCGM 100:2008 G.4.1. Bayley & Hammersley 1946, Suppl. J. R. Stat. Soc. 8, 184–197, for n(1 − r)/(1 + r) (from memory)
 */
export function intervalOfMean(
  values: readonly number[],
  autocorrelation: number | null,
  probe: readonly number[],
  methodUncertainty: number | null,
): MeanInterval {
  const n = values.length
  const r = Math.min(0.9999, Math.max(0, autocorrelation ?? 0))
  const effectiveN = Math.max(1, (n * (1 - r)) / (1 + r))
  const known = probe.filter(Number.isFinite)
  const probeUncertainty =
    known.length === 0 ? null : known.reduce((sum, each) => sum + each, 0) / known.length
  const spread = standardDeviation(values)
  const fewest = autocorrelation === null ? 2 : FEWEST_INDEPENDENT
  const samplingUncertainty = spread === null || effectiveN < fewest ? null : spread / Math.sqrt(effectiveN)
  const interval = { effectiveN, samplingUncertainty, probeUncertainty, methodUncertainty }
  if (samplingUncertainty === null) return { ...interval, expanded: null, degreesOfFreedom: null }
  const lines = [
    { standardUncertainty: samplingUncertainty, degreesOfFreedom: effectiveN - 1 },
    { standardUncertainty: probeUncertainty ?? 0, degreesOfFreedom: Number.POSITIVE_INFINITY },
    { standardUncertainty: methodUncertainty ?? 0, degreesOfFreedom: Number.POSITIVE_INFINITY },
  ]
  const { standardUncertainty, degreesOfFreedom } = combine(lines)
  return {
    ...interval,
    expanded: standardUncertainty === 0 ? 0 : standardUncertainty * coverageFactor(degreesOfFreedom),
    degreesOfFreedom: Number.isFinite(degreesOfFreedom) ? degreesOfFreedom : null,
  }
}

/** Standard uncertainty that a way of measuring adds to the probe's own; null when none is known. */
export function methodUncertaintyOf(quantity: string, { way }: Method): number | null {
  return quantity === 'soil_ph' && /direct|insert/i.test(way ?? '') ? DIRECT_PH_STANDARD_UNCERTAINTY : null
}
