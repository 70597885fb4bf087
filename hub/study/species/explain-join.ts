import type { SpeciesTable } from '../../contract/species.ts'
import { measureFacts } from './find-measure.ts'
import type { LabelMatches } from './match-labels.ts'

/** Where every quadrat of both sides went, and what the cells of the joined table are, as sums that add up. */
export function explainJoin(readingsCount: number, species: SpeciesTable, labels: LabelMatches): string[] {
  const { matched, suggested, doubled, unmatchedSurvey, unmatchedTyped } = labels
  const joined = new Set(matched.map(({ typed }) => typed))
  const doubledTyped = doubled.reduce((sum, { typed }) => sum + typed.length, 0)
  const records = species.records.filter(({ quadrat }) => joined.has(quadrat))
  const present = records.filter((record) => record.present).length
  const cells = matched.length * species.taxa.length
  const isMatched = new Set(matched.map(({ survey }) => survey))
  const waiting = new Set(suggested.map(({ survey }) => survey).filter((label) => !isMatched.has(label)))
  return [
    `Readings: ${readingsCount} quadrats = ${matched.length} joined + ${waiting.size} awaiting confirmation + ${doubled.length} typed more than once + ${unmatchedSurvey.length} without species.`,
    `Species: ${species.quadrats.length} quadrats = ${matched.length} joined + ${suggested.length} awaiting confirmation + ${doubledTyped} typed more than once + ${unmatchedTyped.length} without readings.`,
    `Joined: ${matched.length} quadrats × ${species.taxa.length} taxa = ${cells} values: ${present} present, ${records.length - present} absent, ${cells - records.length} not recorded. Measure: ${measureFacts[species.measure].label}.`,
    ...matched.flatMap(({ repair }) => (repair === null ? [] : [`Label: ${repair}.`])),
  ]
}
