import type { Frame } from '../sources/source.ts'
import { boardOfSource, readFrame } from './read-frame.ts'

/** What the board that sent a frame calls itself in it; null when it does not say, or cannot be read. */
export function nameIn(frame: Frame): string | null {
  // columns name nobody, and most lines of a board without names are such
  if (frame.fault || (frame.bytes[0] !== 0x5b && frame.bytes[0] !== 0x7b)) return null
  const [first] = readFrame({ ...frame, board: null }, () => undefined)
  if (!first || !('signals' in first) || first.board === boardOfSource(frame.source)) return null
  return first.board
}
