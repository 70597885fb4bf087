import { quantityFacts } from '../contract/quantity-facts.ts'
import type { QuadratSummary, StudySummary } from '../contract/study.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { summaryTable } from '../export/tables/summary-table.ts'
import { methodText } from '../study/factors.ts'
import { Study } from '../study/study.ts'
import { Timelines } from '../survey/timeline.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { readHere } from './running-hub.ts'
import { chosenSurvey } from './survey.ts'
import { writeWhole } from './write-whole.ts'

export const summarise: Command = {
  name: 'summarise',
  summary: 'Every quantity at every quadrat, from clean readings, with what to beware of',
  usage: `tussock summarise [--survey ID] [options] [--data FOLDER]

± is half the width of the 95 % interval of the mean: the spread of the values and the probe together. A quadrat with a
single value has none. “used” is how many clean values of how many received.

  --window common      only the time in which every standing probe was logging
  --hydrogen-ions      pH of the mean hydrogen-ion concentration as well; for soil the mean of pH itself is right
  --out FILE           as CSV (summary.csv of “tussock export tables”), with --json as JSON
  --json`,

  async run(args) {
    const { values } = readOptions(args, {
      survey: { type: 'string' },
      window: { type: 'string', default: 'all' },
      'hydrogen-ions': { type: 'boolean', default: false },
      out: { type: 'string' },
      json: { type: 'boolean', default: false },
      data: { type: 'string' },
    })
    const { window } = values
    if (window !== 'all' && window !== 'common')
      throw new HubError('E_COMMAND', `--window is all or common, not "${window}".`)
    const reader = readHere(values.data ?? defaultDataFolder())
    let summary: StudySummary
    try {
      const timelines = new Timelines(reader.surveys(), reader.spots())
      const study = new Study(reader, timelines, chosenSurvey(timelines.surveys, values.survey))
      summary = study.summary({ window, withHydrogenIons: values['hydrogen-ions'] })
    } finally {
      reader.close()
    }
    const json = `${JSON.stringify(summary, null, 2)}\n`
    if (values.out !== undefined)
      await writeWhole(values.out, values.json ? json : [...summaryTable(summary).lines].join(''))
    else if (values.json) process.stdout.write(json)
    else for (const line of summaryLines(summary)) printLine(line)
    return undefined
  },
}

/** The summaries as a person reads them in a terminal: one block a quantity and way of measuring. */
function summaryLines({ summaries, cautions, window }: StudySummary): string[] {
  if (summaries.length === 0) return ['There are no clean readings yet.']
  const blocks = new Map<string, QuadratSummary[]>()
  for (const each of summaries) {
    const label = quantityFacts(each.quantity)?.label ?? each.quantity
    const way = [methodText(each.method), each.kind === 'spot' ? 'carried' : 'logged']
      .filter(Boolean)
      .join(', ')
    const title = `${label} (${way}), ${unitText(each.unit)}`
    blocks.set(title, [...(blocks.get(title) ?? []), each])
  }
  return [
    ...(window
      ? [`Only from ${window.from} to ${window.to}, when every standing probe was logging.`, '']
      : []),
    ...[...blocks].flatMap(([title, block]) => [title, ...tableLines(block), '']),
    ...cautions.map(({ text }) => `Beware: ${text}`),
  ]
}

const HEADINGS = ['quadrat', 'value', '±', 'statistic', 'used', 'low', 'high']

function tableLines(block: readonly QuadratSummary[]): string[] {
  const hasIons = block.some(({ hydrogenIonMean }) => hydrogenIonMean !== null)
  const rows = block.map((each) => {
    const digits = quantityFacts(each.quantity)?.digits ?? 3
    const text = (number: number | null) => (number === null ? '–' : number.toFixed(digits))
    return [
      ...[
        each.quadrat,
        text(each.value),
        text(each.expanded),
        each.statistic,
        `${each.n} of ${each.received}`,
      ],
      ...[text(each.low), text(each.high)],
      ...(hasIons ? [text(each.hydrogenIonMean)] : []),
    ]
  })
  const all = [[...HEADINGS, ...(hasIons ? ['by H⁺'] : [])], ...rows]
  const widths = all[0]!.map((_, column) => Math.max(...all.map((row) => row[column]!.length)))
  return all.map((row) =>
    `  ${row.map((cell, column) => (column === 0 || column === 3 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!))).join('  ')}`.trimEnd(),
  )
}

/** SenML’s own letters as people write them. */
function unitText(unit: string): string {
  if (unit === '/') return 'part of 1'
  return unit === 'Cel' ? '°C' : unit || 'no unit'
}
