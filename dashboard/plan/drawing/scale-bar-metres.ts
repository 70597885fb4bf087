/** The longest of the usual lengths that fits into `most` px. */
export function scaleBarMetres(pixelsPerMetre: number, most: number): number {
  const lengths = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000]
  return lengths.findLast((metres) => metres * pixelsPerMetre <= most) ?? 0.1
}
