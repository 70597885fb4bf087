/**
 * The signal at which c₀ + c₁x + c₂x² has a value: of two, the one in or nearest to low…high.
 * @returns null when the curve never has that value, or has it twice inside low…high
 */
export function solveQuadratic(
  c: readonly number[],
  value: number,
  low: number,
  high: number,
): number | null {
  const [c0 = 0, c1 = 0, c2 = 0] = c
  if (c2 === 0) return c1 === 0 ? null : (value - c0) / c1
  const discriminant = c1 * c1 - 4 * c2 * (c0 - value)
  if (discriminant < 0) return null
  // the form that does not subtract two nearly equal numbers
  const q = -0.5 * (c1 + Math.sign(c1 || 1) * Math.sqrt(discriminant))
  const roots = [q / c2, q === 0 ? 0 : (c0 - value) / q]
  const inside = roots.filter((root) => root >= low && root <= high)
  if (inside.length === 2 && inside[0] !== inside[1]) return null
  const middle = (low + high) / 2
  return inside[0] ?? roots.sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))[0] ?? null
}
