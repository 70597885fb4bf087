import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fitLine, type Line } from './line.ts'
import { statedVariances } from './stated-variances.ts'

/** One reference point: the reference x with its uncertainty, and the signal y with its own. */
export interface CalibrationPoint {
  x: number
  y: number
  /** standard uncertainty of x, in x units; absent: not stated */
  xUncertainty?: number | undefined
  /** sample standard deviation of one signal at this point, in y units; absent: not stated */
  scatter?: number | undefined
  /** the same in x units, for a scatter stated as the quantity and not as the signal */
  scatterOfX?: number | undefined
  /** how many signals were averaged into y, 1 when absent */
  n?: number | undefined
  /** degrees of freedom of `scatter`; n − 1 when absent */
  scatterDegreesOfFreedom?: number | undefined
}

/** Variances in x units squared, with degrees of freedom; zero when a source is not known. */
export interface LineVariances {
  reference: number
  fit: number
  fitDegreesOfFreedom: number
  repeatability: number
  repeatabilityDegreesOfFreedom: number
  total: number
  totalDegreesOfFreedom: number
}

export interface CalibrationLine {
  line: Line
  /** false: neither stated scatter nor enough points to see it, so the uncertainty cannot be known */
  uncertaintyKnown: boolean
  /** x at which the line gives y */
  xAt(y: number): number
  /** writes the variances of x into `into`; no allocation */
  variancesAt(x: number, into: LineVariances): void
}

export function emptyVariances(): LineVariances {
  return {
    reference: 0,
    fit: 0,
    fitDegreesOfFreedom: Number.POSITIVE_INFINITY,
    repeatability: 0,
    repeatabilityDegreesOfFreedom: Number.POSITIVE_INFINITY,
    total: 0,
    totalDegreesOfFreedom: Number.POSITIVE_INFINITY,
  }
}

/**
 * A calibration line fitted as signal on reference and read backwards, with the variance of what is read.
 *
 * Where every point states its signal scatter, each point's reference and signal uncertainties are carried
 * through the least-squares weights h(x) = 1/n + (x − x̄)(xᵢ − x̄)/Sxx (JCGM 100:2008 §5.1.2, H.3).
 * Otherwise, with three or more points, the scatter about the line stands for both, on n − 2 degrees of freedom.
 * Stated references then add nothing of their own: their independent errors already show in that scatter.
 * @see ISO 11095:1996, linear calibration using reference materials; JCGM 100:2008 Annex H.3
 */
export function fitCalibrationLine(points: readonly CalibrationPoint[]): CalibrationLine | Refusal {
  const fitted = fitLine(
    points.map((point) => point.x),
    points.map((point) => point.y),
  )
  if (isRefusal(fitted)) return fitted
  const line: Line = fitted
  if (line.slope === 0 || !Number.isFinite(line.slope)) {
    return refuse(
      'E_SLOPE_ZERO',
      'The signal is the same at every reference point; check that the probe is connected.',
    )
  }
  const stated = points.every((point) => point.scatter !== undefined || point.scatterOfX !== undefined)
  const variancesAt = stated ? statedVariances(points, line) : residualVariances(line)
  return {
    line,
    uncertaintyKnown: stated || line.degreesOfFreedom > 0,
    xAt: (y) => line.meanX + (y - (line.intercept + line.slope * line.meanX)) / line.slope,
    variancesAt,
  }
}

function residualVariances(line: Line): CalibrationLine['variancesAt'] {
  const s = line.residualStandardDeviation ?? 0
  const single = (s / line.slope) ** 2
  const dof = line.degreesOfFreedom > 0 ? line.degreesOfFreedom : Number.POSITIVE_INFINITY
  return (x, into) => {
    const dx = x - line.meanX
    into.reference = 0
    into.fit = single * (1 / line.n + (dx * dx) / line.sumSquaresX)
    into.fitDegreesOfFreedom = dof
    into.repeatability = single
    into.repeatabilityDegreesOfFreedom = dof
    // one and the same estimate of scatter stands in both terms, so their degrees of freedom do not add
    into.total = into.fit + into.repeatability
    into.totalDegreesOfFreedom = dof
  }
}
