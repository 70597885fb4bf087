const FIGURES = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
]

/**
 * A label spelt out, so that Q6 is not taken for Q9 nor the letter O for a zero: “Q six”, “letter O, five”, “Q zero six”.
 * Numbers from 13 on are read figure by figure.
 */
export function spokenLabel(label: string): string {
  const words: string[] = []
  for (const [part] of label.matchAll(/[0-9]+|[^0-9]/gu)) {
    if (!/^[0-9]/.test(part)) words.push(/^[OIl]$/.test(part) ? `letter ${part},` : part)
    else if (!part.startsWith('0') && Number(part) < FIGURES.length) words.push(FIGURES[Number(part)]!)
    else words.push(...[...part].map((figure) => FIGURES[Number(figure)]!))
  }
  // letters of one word stay together: “dry six”, not “d r y six”
  return words
    .join(' ')
    .replace(/(?<=(^| )\p{L}) (?=\p{L}( |$))/gu, '')
    .replace(/,$/, '')
    .replace(/ +/g, ' ')
    .trim()
}
