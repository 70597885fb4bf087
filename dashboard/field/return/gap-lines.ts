import type { CompletenessCell } from '../../../hub/contract/field.ts'

export interface GapLine {
  quadrat: string
  board: string
  fromMs: number
  toMs: number
  quantities: string[]
}

const MINUTE_MS = 60_000

/** Gaps of all cells in time order; those of one board that begin and end in the same minute are one. */
export function gapLines(cells: readonly CompletenessCell[]): GapLine[] {
  const lines = new Map<string, GapLine>()
  for (const { quadrat, quantity, standing } of cells)
    for (const { board, gaps } of standing)
      for (const { fromMs, toMs } of gaps) {
        const key = `${quadrat} ${board} ${Math.floor(fromMs / MINUTE_MS)} ${Math.floor(toMs / MINUTE_MS)}`
        const before = lines.get(key)
        if (!before) lines.set(key, { quadrat, board, fromMs, toMs, quantities: [quantity] })
        else {
          before.fromMs = Math.min(before.fromMs, fromMs)
          before.toMs = Math.max(before.toMs, toMs)
          if (!before.quantities.includes(quantity)) before.quantities.push(quantity)
        }
      }
  return [...lines.values()].sort((one, other) => one.fromMs - other.fromMs)
}
