/** A mark on the tape. */
export interface TapeMark {
  metres: number
  isMetre: boolean
}

/** Marks from zero to the end: a line of length L with one mark every s metres has L/s + 1 of them. */
export function tapeMarks(lengthMetres: number, spacingMetres: number): TapeMark[] {
  const count = markCount(lengthMetres, spacingMetres)
  return Array.from({ length: count }, (_, index) => {
    const metres = Number((index * spacingMetres).toFixed(6))
    return { metres, isMetre: Math.abs(metres - Math.round(metres)) < 1e-6 }
  })
}

export function markCount(lengthMetres: number, spacingMetres: number): number {
  if (!(lengthMetres > 0) || !(spacingMetres > 0)) return 0
  // 20 / 0.1 is 200 only to within rounding
  return Math.floor(lengthMetres / spacingMetres + 1e-9) + 1
}

/** Marks that can be told apart on the screen; a long tape is drawn with fewer. */
export function drawnMarks(lengthMetres: number, spacingMetres: number, pixelsPerMetre: number): TapeMark[] {
  const least = 4
  let spacing = spacingMetres
  for (const wider of [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000])
    if (spacing * pixelsPerMetre < least) spacing = Math.max(spacingMetres, wider)
  return tapeMarks(lengthMetres, spacing)
}

/** Metres have the longer marks; on a tape too fine for that, the numbered ones. */
export function isLongMark(mark: TapeMark, pixelsPerMetre: number, numberEvery: number): boolean {
  if (!mark.isMetre) return false
  return pixelsPerMetre >= 14 || Math.round(mark.metres) % numberEvery === 0
}

/** Every how many metres a number fits. */
export function numberEveryMetres(pixelsPerMetre: number, pixelsPerNumber = 24): number {
  for (const step of [1, 2, 5, 10, 20, 50, 100, 200, 500])
    if (step * pixelsPerMetre >= pixelsPerNumber) return step
  return 1000
}

/**
 * Centres at least `gap` apart, inside [low, high] where that is possible, and as near as can be to where they
 * are wanted (least squares, by pooling neighbours that collide). `wanted` rises; the order is kept.
 */
export function spreadCentres(wanted: readonly number[], gap: number, low: number, high: number): number[] {
  const pools: { sum: number; size: number }[] = []
  wanted.forEach((centre, index) => {
    pools.push({ sum: centre - index * gap, size: 1 })
    while (pools.length > 1) {
      const [before, last] = [pools.at(-2)!, pools.at(-1)!]
      if (before.sum / before.size <= last.sum / last.size) break
      pools.splice(-2, 2, { sum: before.sum + last.sum, size: before.size + last.size })
    }
  })
  const ceiling = Math.max(low, high - (wanted.length - 1) * gap)
  const settled = pools.flatMap(({ sum, size }) => Array<number>(size).fill(sum / size))
  return settled.map((centre, index) => Math.min(ceiling, Math.max(low, centre)) + index * gap)
}
