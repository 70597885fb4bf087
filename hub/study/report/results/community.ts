import { fixed, significant } from '../number-text.ts'
import type { ReportFacts } from '../report-facts.ts'
import { type Block, table } from '../report-model.ts'

/** Zones, frequency and diversity, and animals with what the probes read while their trap stood. */
export function communityBlocks({ material, wish, catches }: ReportFacts): Block[] {
  const { zones, frequency, diversity } = material.statistics
  const blocks: Block[] = []
  if (zones.length > 0)
    blocks.push(
      { kind: 'heading', text: 'Zones' },
      {
        kind: 'list',
        items: zones.map(({ factor, groups, text }) => [
          wish.areVerdictsShown
            ? `${factor}: ${text}`
            : `${factor}: ${groups.map(({ zone, values }) => `${zone} n = ${values.length}`).join(', ')}.`,
        ]),
      },
    )
  if (frequency.length > 0) blocks.push(frequencyTable(frequency))
  if (diversity.length > 0) blocks.push(...diversityTable(diversity))
  if (catches.length > 0) blocks.push(catchTable(catches))
  return blocks
}

type Statistics = ReportFacts['material']['statistics']

function frequencyTable(frequency: Statistics['frequency']): Block {
  const hasCover = frequency.some(({ meanCover }) => meanCover !== null)
  const percent = (value: number | null) => (value === null ? '–' : fixed(value, 1))
  return table(
    'How often and how much: with 95 % intervals',
    [
      'Species',
      'present in',
      'recorded in',
      'frequency (%)',
      'interval',
      ...(hasCover ? ['mean cover (%)', 'interval'] : []),
    ],
    [1, 2, 3, 4, 5, 6],
    frequency.map(
      ({ taxon, present, recorded, percent: share, low, high, meanCover, coverLow, coverHigh }) => [
        taxon,
        fixed(present, 0),
        fixed(recorded, 0),
        percent(share),
        `${percent(low)} to ${percent(high)}`,
        ...(hasCover
          ? [percent(meanCover), coverLow === null ? '–' : `${percent(coverLow)} to ${percent(coverHigh)}`]
          : []),
      ],
    ),
  )
}

function diversityTable(diversity: Statistics['diversity']): Block[] {
  const index = (value: number | null) => (value === null ? '–' : fixed(value, 2))
  const forms = [...new Set(diversity.map(({ simpsonForm }) => simpsonForm))]
  return [
    table(
      'Diversity',
      ['Quadrat', 'species', 'Simpson', 'Shannon', 'evenness'],
      [1, 2, 3, 4],
      diversity.map(({ quadrat, richness, simpson, shannon, evenness }) => [
        quadrat,
        fixed(richness, 0),
        index(simpson),
        index(shannon),
        index(evenness),
      ]),
    ),
    { kind: 'note', text: `Simpson in the form ${forms.join('; ')}. Shannon with natural logarithms.` },
  ]
}

function catchTable(catches: ReportFacts['catches']): Block {
  return table(
    'Animals, with effort',
    ['Animal', 'method', 'where', 'count', 'per trap', 'per trap and hour', 'read meanwhile'],
    [3, 4, 5],
    catches.map(({ record, quadrat, perTrap, perTrapHour, factors, whyNone }) => [
      record.taxon ?? 'nothing caught',
      record.method,
      quadrat ?? record.station,
      fixed(record.count, 0),
      significant(perTrap, 3),
      perTrapHour === null ? '–' : significant(perTrapHour, 3),
      factors.length === 0
        ? (whyNone ?? '–')
        : factors
            .map(
              ({ quantity, mean, unit, n }) =>
                `${quantity.replaceAll('_', ' ')} ${significant(mean, 3, unit === 'Cel' ? '°C' : unit)} (n = ${n})`,
            )
            .join('; '),
    ]),
  )
}
