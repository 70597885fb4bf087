import { measureWords } from '../../pictures/species-values.ts'
import { notebook, type Sentence } from '../links.ts'
import { counted } from '../number-text.ts'
import type { ReportFacts } from '../report-facts.ts'

/** How the plants were recorded and read from the sheet: measure, blanks, repairs, answers. */
export function speciesSentences({ survey, species, join, catches }: ReportFacts): Sentence[] {
  const href = notebook.study(survey.id)
  const table = species?.table
  if (!species || !table)
    return [{ text: 'No table of species had been added when this report was made.', href }]
  const answered = [...table.questions, ...(join?.questions ?? [])].flatMap(({ text, answer, choices }) => {
    if (answer === null) return []
    const chosen = choices.find(({ value }) => value === answer)?.text ?? answer
    return [`Asked “${text}” the class answered: ${chosen}.`]
  })
  const blanks =
    table.blanks === null
      ? ''
      : ` Blanks in it were read as ${table.blanks === 'absent' ? 'absent (0)' : 'not recorded, which is not 0'}.`
  const texts = [
    `${counted(table.taxa.length, 'taxon', 'taxa')} were recorded as ${measureWords(table.measure).axis}, typed in the sheet “${species.name}”. ${table.reading}${blanks}`,
    ...(table.repairs.length === 0
      ? []
      : [
          `${counted(table.repairs.length, 'cell')} were read in spite of how they were typed; every repair is in the appendix.`,
        ]),
    ...answered,
    ...(join?.explanation.slice(0, 3) ?? []),
    ...(catches.length === 0
      ? []
      : [`${counted(catches.length, 'record')} of animals were kept with their method and effort.`]),
  ]
  return [...new Set(texts)].map((text) => ({ text, href }))
}
