import type { QuadratSummary } from '../../../hub/contract/study.ts'

/** Of a normal distribution, 95 %: what is left when only the probe's own uncertainty is known. */
const NORMAL_95 = 1.96

/**
 * As much of the 95 % interval as is known, and which part that is: with the probe unknown it is the spread alone, with
 * the spread unknown the probe alone. Neither must pass for the whole.
 */
export function knownInterval(
  summary: Pick<QuadratSummary, 'expanded' | 'probeUncertainty' | 'methodUncertainty'>,
): { half: number | null; part: '' | 'spread alone' | 'probe alone' } {
  const { expanded, probeUncertainty, methodUncertainty } = summary
  const isProbeKnown = probeUncertainty !== null
  if (expanded !== null) return { half: expanded, part: isProbeKnown ? '' : 'spread alone' }
  if (!isProbeKnown) return { half: null, part: '' }
  return { half: NORMAL_95 * Math.hypot(probeUncertainty, methodUncertainty ?? 0), part: 'probe alone' }
}
