/** One station of a kite: where along the axis, and the half-width there; both in px. */
export interface KitePoint {
  at: number
  half: number
}

/**
 * A kite diagram: how the width of a band shows the cover along a tape.
 * @param stations  rising along the tape; value null: not recorded there
 * @param fullValue  the value that is drawn at full width, such as 100 for cover in %
 * @param fullWidthPx  the width it is drawn at; a half-width is value / fullValue · fullWidthPx / 2
 * @returns runs of stations without a break: zero closes the kite to the line, a station that was not recorded ends the
 * run, and the next one begins anew
 */
export function kiteRuns(
  stations: readonly { at: number; value: number | null }[],
  fullValue: number,
  fullWidthPx: number,
): KitePoint[][] {
  const runs: KitePoint[][] = []
  let isOpen = false
  for (const { at, value } of stations) {
    if (value === null) {
      isOpen = false
      continue
    }
    const point = { at, half: ((value / fullValue) * fullWidthPx) / 2 }
    if (isOpen) runs.at(-1)!.push(point)
    else runs.push([point])
    isOpen = true
  }
  return runs
}

/** The outline of a run about the line at `middle`: along the upper edge, and back along the lower one. */
export function kiteOutline(run: readonly KitePoint[], middle: number): { x: number; y: number }[] {
  return [
    ...run.map(({ at, half }) => ({ x: at, y: middle - half })),
    ...run.toReversed().map(({ at, half }) => ({ x: at, y: middle + half })),
  ]
}
