import { PENCIL, SMALL_PX } from './look.ts'
import { words } from './svg-text.ts'
import { wrapText } from './text-width.ts'

const LINE_PX = 15

export interface NotesDrawn {
  svg: string
  heightPx: number
}

/** What must be known to read a picture, in small lines below it. */
export function drawNotes(notes: readonly string[], x: number, y: number, widthPx: number): NotesDrawn {
  const lines = notes.flatMap((note) => wrapText(note, widthPx, SMALL_PX))
  return {
    svg: lines
      .map((text, index) =>
        words(x, y + (index + 1) * LINE_PX, text, { 'font-size': SMALL_PX, fill: PENCIL }),
      )
      .join(''),
    heightPx: lines.length * LINE_PX + 6,
  }
}
