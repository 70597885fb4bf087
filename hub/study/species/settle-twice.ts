import type { SpeciesAnswers, SpeciesQuestion } from '../../contract/species.ts'
import type { NamedEntry } from './table-names.ts'

/** Values of one quadrat and taxon: one entry as a rule; several when their mean was asked for; none while it is open. */
export interface SettledPair {
  quadrat: string
  taxon: string
  isGround: boolean
  entries: NamedEntry[]
}

/**
 * Two rows (or columns) of one quadrat, or of one taxon, stop that quadrat or taxon and ask: their mean, one of them, or
 * neither. Everything else goes on.
 */
export function settleTwice(
  entries: readonly NamedEntry[],
  isList: boolean,
  answers: SpeciesAnswers,
): { pairs: SettledPair[]; questions: SpeciesQuestion[] } {
  const questions = new Map<string, SpeciesQuestion>()
  const pairs = [...pairUp(entries).values()].map((pair): SettledPair => {
    if (pair.entries.length === 1) return pair
    const { id, lineOf, what } = twiceOver(pair, isList)
    const lines = [...new Set(pair.entries.map(lineOf))]
    const asked = questions.get(id) ?? twiceQuestion(id, what, lines, answers[id] ?? null)
    questions.set(id, asked)
    const { answer } = asked
    if (answer === 'mean') return pair
    return { ...pair, entries: pair.entries.filter((entry) => lineOf(entry) === answer) }
  })
  return { pairs, questions: [...questions.values()] }
}

function pairUp(entries: readonly NamedEntry[]): Map<string, SettledPair> {
  const pairs = new Map<string, SettledPair>()
  for (const entry of entries) {
    const { quadrat, taxon, isGround } = entry
    const key = JSON.stringify([quadrat, taxon])
    const pair = pairs.get(key) ?? { quadrat, taxon, isGround, entries: [] }
    pair.entries.push(entry)
    pairs.set(key, pair)
  }
  return pairs
}

/** What came twice: in a list the pair itself; in a table the quadrat, or else the taxon. */
function twiceOver({ quadrat, taxon, entries }: SettledPair, isList: boolean) {
  if (isList)
    return {
      id: `twice:${quadrat}:${taxon}`,
      lineOf: (entry: NamedEntry) => entry.address,
      what: `${taxon} in ${quadrat}`,
    }
  const isQuadrat = new Set(entries.map((entry) => entry.quadratCell)).size > 1
  return isQuadrat
    ? { id: `twice:${quadrat}`, lineOf: (entry: NamedEntry) => entry.quadratCell, what: `Quadrat ${quadrat}` }
    : { id: `twice:${taxon}`, lineOf: (entry: NamedEntry) => entry.taxonCell, what: taxon }
}

function twiceQuestion(
  id: string,
  what: string,
  lines: readonly string[],
  answer: string | null,
): SpeciesQuestion {
  return {
    id,
    text: `${what} was typed ${lines.length} times (${lines.join(', ')}). Two recorders, or one label wrong? Which counts?`,
    choices: [
      ...lines.map((line) => ({ value: line, text: `the one at ${line}` })),
      { value: 'mean', text: 'their mean' },
      { value: 'none', text: 'none of them: leave it out' },
    ],
    answer,
  }
}
