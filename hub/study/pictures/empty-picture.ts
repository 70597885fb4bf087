import { drawNotes } from './notes.ts'
import { svgFile } from './svg-text.ts'

/** A picture that cannot be drawn says so in its place, with what is missing. */
export function emptyPicture(title: string, why: string, widthPx: number): string {
  const notes = drawNotes([why], 12, 6, widthPx - 24)
  return svgFile({ widthPx, heightPx: notes.heightPx + 18, title, description: why }, notes.svg)
}
