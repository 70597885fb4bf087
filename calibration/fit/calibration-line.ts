import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fitLine, type Line } from './line.ts'

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

function statedVariances(points: readonly CalibrationPoint[], line: Line): CalibrationLine['variancesAt'] {
  const n = points.length
  const lever = Float64Array.from(points, (point) => (point.x - line.meanX) / line.sumSquaresX)
  const reference = Float64Array.from(points, (point) => (point.xUncertainty ?? 0) ** 2)
  const scatter = Float64Array.from(points, (point) => scatterVariance(point, line.slope))
  const averaged = Float64Array.from(points, (point) => Math.max(1, point.n ?? 1))
  const dof = Float64Array.from(points, (point) => scatterDegreesOfFreedom(point))
  const pooled = pool(scatter, dof)
  const excess = excessOverStated(points, line, reference, scatter, averaged)
  const excessDof = Math.max(1, line.degreesOfFreedom)
  return (x, into) => {
    const dx = x - line.meanX
    let referenceSum = 0
    let fitSum = 0
    let satterthwaite = 0
    let cross = 0
    for (let i = 0; i < n; i++) {
      const h = 1 / n + dx * lever[i]!
      const h2 = h * h
      const own = (h2 * scatter[i]!) / averaged[i]!
      referenceSum += h2 * reference[i]!
      fitSum += own
      satterthwaite += (own * own) / dof[i]!
      // the same scatter estimate serves the point and, pooled, the reading itself
      const shared = scatter[i]! * (h2 / averaged[i]! + pooled.weight[i]!)
      cross += (shared * shared) / dof[i]!
    }
    const more = excess * (referenceSum + fitSum)
    fitSum += more
    satterthwaite += (more * more) / excessDof
    cross += (more * more) / excessDof
    into.reference = referenceSum
    into.fit = fitSum
    into.fitDegreesOfFreedom =
      satterthwaite > 0 ? (fitSum * fitSum) / satterthwaite : Number.POSITIVE_INFINITY
    into.repeatability = pooled.variance
    into.repeatabilityDegreesOfFreedom = pooled.degreesOfFreedom
    const total = referenceSum + fitSum + pooled.variance
    into.total = total
    into.totalDegreesOfFreedom = cross > 0 ? (total * total) / cross : Number.POSITIVE_INFINITY
  }
}

/**
 * How much wider than stated the points lie about the line: χ²/ν − 1 where chance would give so large a χ² once in a
 * hundred, else 0. Stated uncertainties that the points contradict are not believed.
 * @see JCGM 100:2008 §5.1.3 on judgement; Birge 1932, Phys. Rev. 40, 207–227, for the ratio
 */
function excessOverStated(
  points: readonly CalibrationPoint[],
  line: Line,
  reference: Float64Array,
  scatter: Float64Array,
  averaged: Float64Array,
): number {
  const nu = line.degreesOfFreedom
  if (nu < 1) return 0
  let chiSquared = 0
  for (const [i, point] of points.entries()) {
    const residual = (point.y - line.intercept - line.slope * point.x) / line.slope
    const variance = reference[i]! + scatter[i]! / averaged[i]!
    if (variance > 0) chiSquared += (residual * residual) / variance
  }
  return chiSquared > chiSquaredOnceInAHundred(nu) ? chiSquared / nu - 1 : 0
}

/** χ² exceeded once in a hundred (Wilson & Hilferty 1931, PNAS 17, 684–688; within 1 % for ν ≥ 1). */
function chiSquaredOnceInAHundred(nu: number): number {
  const part = 2 / (9 * nu)
  return nu * (1 - part + 2.326348 * Math.sqrt(part)) ** 3
}

function scatterVariance(point: CalibrationPoint, slope: number): number {
  return point.scatter === undefined ? (point.scatterOfX ?? 0) ** 2 : (point.scatter / slope) ** 2
}

function scatterDegreesOfFreedom(point: CalibrationPoint): number {
  if (point.scatterDegreesOfFreedom !== undefined) return point.scatterDegreesOfFreedom
  // without a stated count the scatter is taken as a known property of the probe
  return point.n === undefined || point.n < 2 ? Number.POSITIVE_INFINITY : point.n - 1
}

/** Pooled variance Σν·s²/Σν; plain mean when no count is stated. `weight` sums to one. */
function pool(variances: Float64Array, dof: Float64Array) {
  const finite = dof.every((each) => Number.isFinite(each))
  const total = finite ? dof.reduce((sum, each) => sum + each, 0) : variances.length
  const weight = variances.map((_, i) => (finite ? dof[i]! : 1) / total)
  const variance = variances.reduce((sum, each, i) => sum + each * weight[i]!, 0)
  return { variance, weight, degreesOfFreedom: finite ? total : Number.POSITIVE_INFINITY }
}
