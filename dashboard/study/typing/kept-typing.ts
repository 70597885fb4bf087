import { recall, remember } from '../../bench/remembered.ts'
import { blankGrid, type TypingGrid } from './typing-grid.ts'

const KEY = (survey: string) => `study typing ${survey}`

/** What was typed on this device and not sent yet. */
export function typingKept(survey: string): TypingGrid {
  const kept = recall<Partial<TypingGrid> | null>(KEY(survey), null)
  const isWhole = kept?.measure !== undefined && Array.isArray(kept.rows)
  return isWhole ? (kept as TypingGrid) : blankGrid()
}

export function keepTyping(survey: string, grid: TypingGrid): void {
  remember(KEY(survey), grid)
}
