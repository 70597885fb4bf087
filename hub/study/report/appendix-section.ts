import { calibrationRecords } from './calibration-records.ts'
import type { ReportFacts } from './report-facts.ts'
import { type Block, paragraph, type ReportSection, table } from './report-model.ts'

/** Records and settings from which the numbers follow. */
export function appendixSection(facts: ReportFacts): ReportSection {
  const records = calibrationRecords(facts)
  const blocks: Block[] = [
    ...(records.length === 0 ? [paragraph('There is no calibration on record.')] : records),
    ...repairs(facts),
    { kind: 'heading', text: 'Settings' },
    settings(facts),
  ]
  return { title: 'Appendix', blocks, beginsPage: false }
}

function repairs({ species }: ReportFacts): Block[] {
  const made = species?.table?.repairs ?? []
  if (made.length === 0) return []
  return [
    table(
      'Cells of the species sheet that were read in spite of how they were typed',
      ['Cell', 'typed', 'read as', 'why'],
      [],
      made.map(({ cell, from, to, why }) => [cell, from, to, why]),
    ),
  ]
}

function settings({ survey, wish, species, version }: ReportFacts): Block {
  const limits = Object.entries(survey.quality ?? {}).flatMap(([test, byQuantity]) =>
    Object.entries(byQuantity).map(([quantity, own]) => [`${test}, ${quantity}`, JSON.stringify(own)]),
  )
  const answers = Object.entries(species?.answers ?? {}).map(([id, answer]) => [`answer ${id}`, answer])
  return table(
    'What this report was made with',
    ['Setting', 'value'],
    [],
    [
      ['survey', survey.id],
      ['program', `Tussock ${version}`],
      ['time used', wish.window === 'common' ? 'only while every standing probe was logging' : 'all'],
      ['hydrogen-ion mean of pH', wish.withHydrogenIons ? 'yes' : 'no'],
      ['tests and verdicts', wish.areVerdictsShown ? 'shown' : 'held back'],
      ['coordinates', wish.coordinates],
      ...limits,
      ...answers,
    ],
  )
}
