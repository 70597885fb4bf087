import type { TypingGrid } from './typing-grid.ts'

/** What both forms of the typing sheet need. */
export interface GridProps {
  grid: TypingGrid
  quadrats: readonly string[]
  onName: (row: number, name: string) => void
  onCell: (row: number, quadrat: string, text: string) => void
  onOneMore: () => void
}
