import { notebook } from './links.ts'
import { counted, fixed } from './number-text.ts'
import { reasonExplained, reasonTitle } from './reason-title.ts'
import type { ReportFacts } from './report-facts.ts'
import { type Block, paragraph, type ReportSection, table } from './report-model.ts'
import { fromToText, zoneOrUtc } from './time-text.ts'

/** Everything that is not in the results, with its reason: readings, decisions by hand, insertions, labels, cells. */
export function leftOutSection(facts: ReportFacts): ReportSection {
  const blocks: Block[] = [
    ...readings(facts),
    ...decisions(facts),
    ...insertions(facts),
    ...speciesSide(facts),
  ]
  if (blocks.length === 0) blocks.push(paragraph('Nothing was left out.'))
  return { title: 'What was left out', blocks, beginsPage: false }
}

function readings({ clean }: ReportFacts): Block[] {
  if (clean.leftOut.length === 0) return []
  return [
    table(
      `Readings: ${fixed(clean.clean, 0)} clean and ${fixed(clean.all - clean.clean, 0)} left out are all ${fixed(clean.all, 0)}`,
      ['Reason', 'readings', 'what that means'],
      [1],
      clean.leftOut.map(({ reason, n }) => [reasonTitle(reason), fixed(n, 0), reasonExplained(reason)]),
    ),
  ]
}

function decisions({ survey }: ReportFacts): Block[] {
  const zone = zoneOrUtc(survey.site.timeZone)
  const standing = (survey.decisions ?? []).filter(({ takenBack }) => !takenBack)
  if (standing.length === 0) return []
  return [
    table(
      'Decisions by hand',
      ['Probe', 'when', 'decision', 'reason', 'group'],
      [],
      standing.map(({ probe, from, to, action, reason, by }) => [
        probe,
        { text: fromToText(from, to, zone), href: notebook.decisions(survey.id) },
        action === 'exclude' ? 'left out' : 'suspect readings let in',
        reason,
        by ?? '–',
      ]),
    ),
  ]
}

function insertions({ survey, spots }: ReportFacts): Block[] {
  const rows = spots.flatMap(({ spot, quantity, replicates }) =>
    replicates.flatMap(({ leftOut }, index) =>
      leftOut === null
        ? []
        : [
            [
              { text: spot.quadrat, href: notebook.carry(survey.id) },
              quantity.replaceAll('_', ' '),
              spot.probe,
              fixed(index + 1, 0),
              reasonTitle(leftOut),
            ],
          ],
    ),
  )
  if (rows.length === 0) return []
  return [
    table('Insertions of carried meters', ['Quadrat', 'quantity', 'probe', 'insertion', 'reason'], [3], rows),
  ]
}

/** Cells that cannot be used, labels without a partner, sheets put aside. */
function speciesSide({ species, join, sheets }: ReportFacts): Block[] {
  const blocks: Block[] = []
  const faults = species?.table?.faults ?? []
  if (faults.length > 0)
    blocks.push(
      table(
        'Cells of the species sheet that cannot be used',
        ['Cell', 'typed', 'why'],
        [],
        faults.map(({ cell, written, message }) => [cell, written, message]),
      ),
    )
  if (join && join.unmatched.rows.length > 0)
    blocks.push(
      table(
        'Quadrats that did not join',
        join.unmatched.headings,
        [],
        join.unmatched.rows.map((row) => row.map((cell) => (cell === null ? '–' : String(cell)))),
      ),
    )
  for (const { name, trouble } of sheets)
    if (trouble !== null)
      blocks.push({ kind: 'note', text: `The sheet “${name}” could not be read: ${trouble}` })
  const removed = sheets.filter(({ isRemoved }) => isRemoved).length
  if (removed > 0)
    blocks.push({
      kind: 'note',
      text: `${counted(removed, 'sheet')} of species or animals ${removed === 1 ? 'was' : 'were'} put aside.`,
    })
  return blocks
}
