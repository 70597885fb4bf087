import { CalibrationError } from '../errors.ts'
import { normalCdf, normalQuantile } from './normal.ts'

/** From here on Student's t and the normal distribution agree to the digits of a double. */
const NEARLY_NORMAL = 1e10

/**
 * Student's t distribution: probability of a value at or below t.
 * @param degreesOfFreedom  above 0, need not be whole; Infinity is the normal distribution
 * @see Abramowitz & Stegun 1964, 26.7.1 by the incomplete beta function 26.5.8
 */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  requireDegrees(degreesOfFreedom)
  if (degreesOfFreedom > NEARLY_NORMAL) return normalCdf(t)
  if (t === 0) return 0.5
  const squared = t * t
  const tail = incompleteBeta(
    degreesOfFreedom / 2,
    0.5,
    degreesOfFreedom / (degreesOfFreedom + squared),
    squared / (degreesOfFreedom + squared),
  )
  return t > 0 ? 1 - tail / 2 : tail / 2
}

/**
 * Student's t distribution: the t that a share `probability` lies at or below.
 * Newton's method on the distribution, kept inside a bracket.
 * @param probability  0 < probability < 1
 * @throws CalibrationError `E_PROBABILITY` or `E_DEGREES_OF_FREEDOM` outside these ranges
 * @example 0.975 and 2 degrees of freedom: 4.302653
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  requireDegrees(degreesOfFreedom)
  if (!(probability > 0 && probability < 1)) {
    throw new CalibrationError('E_PROBABILITY', `a probability lies between 0 and 1, not ${probability}`)
  }
  if (probability === 0.5) return 0
  if (probability < 0.5) return -upperQuantile(probability, degreesOfFreedom)
  return upperQuantile(1 - probability, degreesOfFreedom)
}

/** The positive t with this much probability above it. */
function upperQuantile(tail: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom > NEARLY_NORMAL) return -normalQuantile(tail)
  let low = 0
  let high = Math.max(1, -normalQuantile(tail))
  while (studentTCdf(-high, degreesOfFreedom) > tail) {
    low = high
    high *= 2
  }
  const density = densityScale(degreesOfFreedom)
  let t = (low + high) / 2
  for (let step = 0; step < 200; step++) {
    const over = studentTCdf(-t, degreesOfFreedom) - tail
    if (over > 0) low = t
    else high = t
    const slope = density * (1 + (t * t) / degreesOfFreedom) ** (-(degreesOfFreedom + 1) / 2)
    const newton = t + over / slope
    const next = newton > low && newton < high ? newton : (low + high) / 2
    if (Math.abs(next - t) <= 1e-14 * t) return next
    t = next
  }
  return t
}

function densityScale(nu: number): number {
  return Math.exp(logGamma((nu + 1) / 2) - logGamma(nu / 2)) / Math.sqrt(nu * Math.PI)
}

function requireDegrees(degreesOfFreedom: number): void {
  if (degreesOfFreedom > 0) return
  throw new CalibrationError(
    'E_DEGREES_OF_FREEDOM',
    `degrees of freedom are above 0, not ${degreesOfFreedom}`,
  )
}

/** Regularised incomplete beta I_x(a, b); `rest` is 1 − x, given apart so that neither loses digits. */
function incompleteBeta(a: number, b: number, x: number, rest: number): number {
  if (x <= 0) return 0
  if (rest <= 0) return 1
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(rest))
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(a, b, x)) / a
    : 1 - (front * betaFraction(b, a, rest)) / b
}

/** Continued fraction 26.5.8, by Lentz's method. */
function betaFraction(a: number, b: number, x: number): number {
  const tiny = 1e-300
  let c = 1
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1), tiny)
  let result = d
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / nonZero(1 + even * d, tiny)
    c = nonZero(1 + even / c, tiny)
    result *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / nonZero(1 + odd * d, tiny)
    c = nonZero(1 + odd / c, tiny)
    result *= d * c
    if (Math.abs(d * c - 1) < 1e-16) break
  }
  return result
}

function nonZero(number: number, tiny: number): number {
  return Math.abs(number) < tiny ? tiny : number
}

/** Coefficients of Lanczos' approximation with g = 7, nine terms; relative error below 1e-14. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
]

/** Natural logarithm of the gamma function for x ≥ 0.5 (Lanczos 1964, SIAM J. Numer. Anal. B 1, 86–96). */
function logGamma(x: number): number {
  // for large x the Stirling series keeps the digits that differences of large logarithms need
  if (x > 30) {
    const inverse = 1 / x
    const square = inverse * inverse
    const series = inverse * (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square / 1680)))
    return (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI) + series
  }
  const t = x + 6.5
  let sum = LANCZOS[0]!
  for (let k = 1; k < LANCZOS.length; k++) sum += LANCZOS[k]! / (x + k - 1)
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum)
}
