import { type MarkShape, mark, SMALL_PX } from './look.ts'
import { words } from './svg-text.ts'
import { fitText, textWidth } from './text-width.ts'

/** Which mark is which zone, in a row (or several). Empty when there is nothing to tell apart. */
export function drawMarkKey(
  entries: readonly { shape: MarkShape; text: string }[],
  x: number,
  y: number,
  widthPx: number,
): { svg: string; heightPx: number } {
  if (entries.length < 2) return { svg: '', heightPx: 0 }
  let [at, row] = [0, 0]
  const parts = entries.map(({ shape, text }) => {
    const fitting = fitText(text, widthPx - 20, SMALL_PX)
    const width = textWidth(fitting, SMALL_PX) + 30
    if (at > 0 && at + width > widthPx) [at, row] = [0, row + 1]
    const [left, middle] = [x + at, y + 10 + row * 17]
    at += width
    return mark(shape, left + 6, middle) + words(left + 15, middle + 4, fitting, { 'font-size': SMALL_PX })
  })
  return { svg: parts.join(''), heightPx: (row + 1) * 17 + 6 }
}
