import type { CalibrationLine, CalibrationPoint } from './calibration-line.ts'
import type { Line } from './line.ts'

/**
 * Variances where every point states its signal scatter: reference and signal uncertainties of each point carried
 * through its least-squares weight, the scatter pooled for the reading itself.
 * @see JCGM 100:2008 §5.1.2, G.4.1
 */
export function statedVariances(
  points: readonly CalibrationPoint[],
  line: Line,
): CalibrationLine['variancesAt'] {
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
