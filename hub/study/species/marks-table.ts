import type { SpeciesAnswers, SpeciesQuestion, SpeciesRecord, SpeciesTable } from '../../contract/species.ts'
import { readMarks, type SheetMark } from './read-marks.ts'
import { firstFew } from './read-sheet.ts'
import type { RecognisedLayout } from './recognise-layout.ts'
import type { SheetGrid } from './sheet-grid.ts'
import { faultsQuestion } from './table-questions.ts'
import { taxonKind } from './taxon-name.ts'
import { marksByZone, type TouchZone, touchesInZone } from './transect-touches.ts'

export interface MarksWish {
  answers?: SpeciesAnswers
  /** parts of the tape, such as shade 0–6 m; a zone column in the sheet goes before them; without either, the whole line */
  zones?: readonly TouchZone[]
}

/**
 * A list of marks, each with what touches it (“bramble/ivy/bare”), to the share of marks touched in each zone. The zone
 * takes the place of the quadrat. “bare” is a mark that was visited; an empty mark is asked about.
 */
export function readMarksTable(
  grid: SheetGrid,
  layout: RecognisedLayout,
  wish: MarksWish = {},
): SpeciesTable {
  const answers = wish.answers ?? {}
  const { marks: all, faults } = readMarks(grid, layout)
  const marks = all.filter(({ isEmpty }) => !isEmpty || answers['empty-mark'] !== 'forgotten')
  const zones = zonesOf(marks, wish.zones).filter((zone) => zone.marks.length > 0)
  const names = [...new Set(marks.flatMap((mark) => mark.taxa))]
  const records = zones
    .flatMap((zone) => touchesInZone(zone.zone, zone.marks, names))
    .map(
      ({ zone, taxon, touched, marks: n, percent }): SpeciesRecord => ({
        quadrat: zone,
        taxon,
        measure: 'touches',
        value: percent,
        asWritten: `${touched} of ${n} marks`,
        cell: '',
        present: touched > 0,
      }),
    )
  const isGround = (name: string) => taxonKind(name) === 'ground'
  const inZones = zones.reduce((sum, zone) => sum + zone.marks.length, 0)
  const counts = zones.map((zone) => `${zone.marks.length} in ${zone.zone}`).join(', ')
  return {
    reading: layout.sentence,
    measure: 'touches',
    blanks: null,
    quadrats: zones.map(({ zone }) => ({ label: zone, cell: '', isSurveyed: true })),
    taxa: names.filter((name) => !isGround(name)).map((name) => ({ name, cell: '' })),
    records: records.filter(({ taxon }) => !isGround(taxon)),
    ground: records.filter(({ taxon }) => isGround(taxon)),
    notRecorded: [],
    questions: [
      ...emptyMarkQuestion(
        all.filter(({ isEmpty }) => isEmpty),
        answers,
      ),
      ...faultsQuestion(faults.length, answers),
    ],
    repairs: [],
    faults,
    notes: [
      `${all.length} marks typed: ${counts}${inZones < marks.length ? `, ${marks.length - inZones} in no zone` : ''}.`,
      'A mark touched by two species counts for both: the sum over species may pass 100 %.',
    ],
  }
}

function zonesOf(marks: readonly SheetMark[], zones: readonly TouchZone[] = []) {
  const typed = [...new Set(marks.flatMap(({ zone }) => zone ?? []))]
  if (typed.length > 0)
    return typed.map((zone) => ({ zone, marks: marks.filter((mark) => mark.zone === zone) }))
  return zones.length > 0 ? marksByZone(marks, zones) : [{ zone: 'whole line', marks: [...marks] }]
}

function emptyMarkQuestion(empty: readonly SheetMark[], answers: SpeciesAnswers): SpeciesQuestion[] {
  if (empty.length === 0) return []
  const answer = answers['empty-mark']
  const where = firstFew(empty.map(({ address }) => address))
  return [
    {
      id: 'empty-mark',
      text: `${empty.length} ${empty.length === 1 ? 'mark is' : 'marks are'} empty (${where}). Did nothing touch, or was it forgotten?`,
      choices: [
        { value: 'nothing', text: 'nothing touched it' },
        { value: 'forgotten', text: 'forgotten: not counted among the marks' },
      ],
      answer: answer === 'nothing' || answer === 'forgotten' ? answer : null,
    },
  ]
}
