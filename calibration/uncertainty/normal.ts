/**
 * Normal distribution: probability of a value at or below z.
 * @see Abramowitz & Stegun 1964, 7.1.5 (series) and 7.1.14 (continued fraction) for the error function
 */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) return Number.NaN
  const x = Math.abs(z) / Math.SQRT2
  const upper = x < 2.5 ? (1 - erfSeries(x)) / 2 : erfcFraction(x) / 2
  return z > 0 ? 1 - upper : upper
}

function erfSeries(x: number): number {
  let term = x
  let sum = x
  for (let n = 1; n < 200 && Math.abs(term) > 1e-17 * sum; n++) {
    term *= (-x * x) / n
    sum += term / (2 * n + 1)
  }
  return (2 / Math.sqrt(Math.PI)) * sum
}

function erfcFraction(x: number): number {
  let tail = 0
  for (let n = 60; n > 0; n--) tail = n / 2 / (x + tail)
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / (x + tail)
}

/**
 * Normal distribution: the z that a share `probability` lies at or below, 0 < probability < 1.
 * Newton's method from a rational start.
 * @see Abramowitz & Stegun 1964, 26.2.23 for the start
 */
export function normalQuantile(probability: number): number {
  if (probability === 0.5) return 0
  if (probability > 0.5) return -normalQuantile(1 - probability)
  const t = Math.sqrt(-2 * Math.log(probability))
  let z =
    (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t
  for (let step = 0; step < 8; step++) {
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
    const correction = (normalCdf(z) - probability) / density
    // Halley's term: the density itself bends as −z·density
    z -= correction / (1 + (z * correction) / 2)
    if (Math.abs(correction) < 1e-15) break
  }
  return z
}
