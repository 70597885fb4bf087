import type { CalibrationLine } from '../fit/calibration-line.ts'
import type { Advice, Fitted } from '../fitted.ts'

/** Correlation under which a tunnel or side-by-side run is not a calibration (IEC 61400-12-1 asks for 0.99995 in a tunnel). */
const SIDE_BY_SIDE_CORRELATION = 0.95

/** Judges a cup by how well its pairs lie on a line; a sheet cannot be judged. */
export function judgeCup(calibration: CalibrationLine | null): {
  verdict: Fitted['verdict']
  advice: Advice[]
} {
  if (calibration === null) {
    const text =
      'Offset and slope come from a sheet and were not checked. Stand the cup beside a trusted one for ten minutes.'
    return { verdict: 'pass', advice: [{ code: 'sheet-values', text }] }
  }
  const { slope, sumSquaresX, residualStandardDeviation, degreesOfFreedom } = calibration.line
  if (residualStandardDeviation === null) {
    const text =
      'Two pairs give a line but not its uncertainty. Take at least three, better ten, at different speeds.'
    return { verdict: 'warn', advice: [{ code: 'few-pairs', text }] }
  }
  const explained = slope * slope * sumSquaresX
  const correlation = Math.sqrt(explained / (explained + residualStandardDeviation ** 2 * degreesOfFreedom))
  if (correlation >= SIDE_BY_SIDE_CORRELATION) return { verdict: 'pass', advice: [] }
  const text = `The pairs scatter widely about the line (correlation ${correlation.toFixed(2)}). Check both cups turn freely, stand clear of each other, and average longer.`
  return { verdict: 'fail', advice: [{ code: 'pairs-scatter', text }] }
}
