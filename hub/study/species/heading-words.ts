/** What a class writes over its columns. Common practice, no source. */
const words = {
  quadrat: [
    'quadrat',
    'quadrats',
    'quadrat label',
    'quadrat no',
    'quad',
    'q',
    'plot',
    'site',
    'sample',
    'releve',
  ],
  taxon: [
    'species',
    'taxon',
    'taxa',
    'plant',
    'plants',
    'species name',
    'common name',
    'scientific name',
    'latin name',
  ],
  value: [
    'value',
    'cover',
    'percent cover',
    'percentage cover',
    'percentage',
    'percent',
    'hits',
    'grid hits',
    'count',
    'number',
    'presence',
    'present',
    'touches',
    'abundance',
    'domin',
    'class',
    'braun blanquet',
  ],
  mark: ['mark', 'marks', 'distance', 'distance m', 'position', 'metre', 'metres', 'm', 'point'],
  touched: [
    'touched',
    'touches',
    'touching',
    'hit',
    'hits',
    'what it touches',
    'species',
    'plants',
    'plant',
    'taxa',
  ],
  zone: ['zone', 'habitat', 'part'],
  trap: ['trap', 'trap no', 'station', 'quadrat', 'site', 'sample', 'plot'],
  animal: ['taxon', 'animal', 'animals', 'species', 'what', 'name', 'order', 'family', 'group'],
  count: ['count', 'number', 'n', 'how many'],
  method: ['method', 'sampling method', 'how', 'trap kind'],
  set: ['set', 'set at', 'time set', 'put out'],
  checked: ['checked', 'checked at', 'time checked', 'emptied'],
  hours: ['hours', 'hours out', 'h'],
  sweeps: ['sweeps', 'number of sweeps'],
  traps: ['traps', 'number of traps'],
  measure: ['measure'],
} as const satisfies Record<string, readonly string[]>

export type HeadingWord = keyof typeof words

/** Units in brackets, signs, underscores and case do not matter: `Cover (%)` is `cover`. */
function plainHeading(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/\(.*?\)|\[.*?\]/g, ' ')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
}

/** True when a heading says just this and nothing more. */
export function headingSays(text: string, word: HeadingWord): boolean {
  return (words[word] as readonly string[]).includes(plainHeading(text))
}

/** The first column whose heading says this, not among those taken; or −1. */
export function columnSaying(headings: readonly string[], word: HeadingWord, ...taken: number[]): number {
  return headings.findIndex((text, column) => !taken.includes(column) && headingSays(text, word))
}
