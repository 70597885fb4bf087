import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import {
  type SpeciesAnswers,
  SpeciesMeasure,
  type SpeciesQuestion,
  type SpeciesTable,
} from '../../contract/species.ts'
import { findMeasure } from './find-measure.ts'
import { headingTexts } from './heading-rows.ts'
import { columnSaying } from './heading-words.ts'
import { judgePairs } from './judge-pairs.ts'
import { type MarksWish, readMarksTable } from './marks-table.ts'
import { plainText } from './read-value.ts'
import { layoutNames, type RecognisedLayout, recogniseLayout } from './recognise-layout.ts'
import { settleTwice } from './settle-twice.ts'
import { CELLS_MAX, type SheetGrid, tooLarge } from './sheet-grid.ts'
import { refuseSheet } from './sheet-refusal.ts'
import { spreadTable } from './spread-table.ts'
import { nameTable } from './table-names.ts'
import { faultsQuestion } from './table-questions.ts'

export interface TableWish extends MarksWish {
  /** answers to questions of an earlier reading; also `layout`, `measure` and `trace` (%) unasked */
  answers?: SpeciesAnswers
  /** labels of the survey, if they are known: they tell which way the table runs */
  quadratLabels?: readonly string[]
}

/**
 * A grid of cells to species records, by the layout it is recognised in. It depends on the grid and the answers alone:
 * the same file with the same answers is always the same table.
 * @returns a table, with open questions where only a person can say; or a refusal E_SHEET_LAYOUT
 */
export function readSpeciesTable(grid: SheetGrid, wish: TableWish = {}): SpeciesTable | Refusal {
  const answers = wish.answers ?? {}
  const saidLayout = layoutNames.find((name) => name === answers['layout'])
  const layout = recogniseLayout(grid, {
    ...(saidLayout && { layout: saidLayout }),
    ...(wish.quadratLabels && { quadratLabels: wish.quadratLabels }),
  })
  if (isRefusal(layout)) return layout
  if (layout.layout === 'marks-down') return readMarksTable(grid, layout, wish)
  const mixed = mixedMeasures(grid, layout)
  if (mixed) return mixed

  const spread = spreadTable(grid, layout)
  if (spread.entries.length === 0)
    return refuseSheet(
      'E_SHEET_LAYOUT',
      `${layout.sentence} That leaves no quadrat with a species. It should have quadrats one way and species the other, or be a list of quadrat, species and value.`,
    )
  const names = nameTable(spread.entries, answers)
  if (names.quadrats.length * names.taxa.length > CELLS_MAX) return tooLarge()
  const written = spread.entries.filter(({ cell }) => cell.kind !== 'blank').map(({ cell }) => cell.text)
  const saidMeasure = SpeciesMeasure.safeParse(answers['measure'])
  const found = findMeasure(
    wordsOver(grid, layout),
    written.filter((text) => !/^[-–—.?]$|^n\/?a$/.test(plainText(text))),
    saidMeasure.success ? saidMeasure.data : null,
  )
  const twice = settleTwice(names.entries, layout.layout === 'long', answers)
  const judged = judgePairs(twice.pairs, names, found.measure, answers)
  const faults = [...spread.faults, ...judged.faults]
  return {
    reading: layout.sentence,
    measure: found.measure,
    blanks: judged.blanks,
    quadrats: judged.quadrats,
    taxa: names.taxa,
    records: judged.records,
    ground: judged.ground,
    notRecorded: judged.notRecorded,
    questions: [
      ...layoutQuestion(layout, answers),
      ...(found.question ? [found.question] : []),
      ...twice.questions,
      ...judged.questions,
      ...faultsQuestion(faults.length, answers),
    ],
    repairs: [...names.repairs, ...judged.repairs],
    faults,
    notes: [...(found.note ? [found.note] : []), ...spread.leftAside, ...names.notes, ...judged.notes],
  }
}

/** Title, corner, and the heading over the values of a list: where a class says what it measured. */
function wordsOver(grid: SheetGrid, layout: RecognisedLayout): string {
  const { texts } = headingTexts(grid, layout)
  const over =
    layout.layout === 'long' ? (texts[layout.valueColumn] ?? 'presence') : texts[layout.labelColumn]
  return `${layout.title} ${over ?? ''}`
}

function mixedMeasures(grid: SheetGrid, layout: RecognisedLayout): Refusal | null {
  const column = layout.layout === 'long' ? columnSaying(headingTexts(grid, layout).texts, 'measure') : -1
  if (column < 0) return null
  const below = grid.rows.slice(layout.headingRow + 1)
  const measures = [
    ...new Set(below.map((row) => plainText(row[column]!.text)).filter((text) => text !== '')),
  ]
  if (measures.length < 2) return null
  return refuseSheet(
    'E_SHEET_LAYOUT',
    `The list has several measures (${measures.join(', ')}), and unlike measures are never mixed. Put each into a file of its own.`,
  )
}

function layoutQuestion(layout: RecognisedLayout, answers: SpeciesAnswers): SpeciesQuestion[] {
  if (!layout.isUnsure) return []
  return [
    {
      id: 'layout',
      text: `${layout.sentence} The labels do not tell for sure. Where are the quadrats?`,
      choices: [
        { value: 'quadrats-across', text: 'side by side: species down, quadrats across' },
        { value: 'quadrats-down', text: 'one below the other: quadrats down, species across' },
      ],
      answer: answers['layout'] ?? null,
    },
  ]
}
