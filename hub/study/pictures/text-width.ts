const NARROW = new Set(" .,:;'!|ijlftrI()[]/·’‘")
const WIDE = new Set('mwMW%@—…')

/**
 * About how wide a line of text is, px, at a font size in px. On the safe side for the plain fonts that pictures name:
 * the widest of them (DejaVu Sans) sets letters at 0.34 to 0.98 of the size.
 */
export function textWidth(text: string, sizePx: number): number {
  let ems = 0
  for (const letter of text) {
    if (NARROW.has(letter)) ems += 0.36
    else if (WIDE.has(letter)) ems += 0.98
    else if (letter >= '\u2e80') ems += 1.02
    else ems += letter !== letter.toLowerCase() ? 0.72 : 0.62
  }
  return ems * sizePx
}

/** The text, or as much of its beginning as fits, with “…” after it. */
export function fitText(text: string, widthPx: number, sizePx: number): string {
  if (textWidth(text, sizePx) <= widthPx) return text
  const letters = [...text]
  while (letters.length > 0 && textWidth(`${letters.join('')}…`, sizePx) > widthPx) letters.pop()
  return letters.length === 0 ? '' : `${letters.join('').trimEnd()}…`
}

/** The text in lines that fit; a single word that does not is cut short. */
export function wrapText(text: string, widthPx: number, sizePx: number): string[] {
  const lines: string[] = []
  for (const word of text.split(/[ \n\t]+/).filter((each) => each !== '')) {
    const last = lines.at(-1)
    const longer = last === undefined ? word : `${last} ${word}`
    if (last !== undefined && textWidth(longer, sizePx) <= widthPx) lines[lines.length - 1] = longer
    else lines.push(fitText(word, widthPx, sizePx))
  }
  return lines
}
