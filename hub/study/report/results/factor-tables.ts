import type { QuadratSummary } from '../../../contract/study.ts'
import type { Factor } from '../../factors.ts'
import { nameWithUnit, shownUnit } from '../../pictures/shown-unit.ts'
import { methodKey } from '../../summary/collect.ts'
import { notebook } from '../links.ts'
import { coverageOf, freedomText } from '../methods/uncertainty.ts'
import { decimalsOf, fixed, measuredText, rounded } from '../number-text.ts'
import type { ReportFacts } from '../report-facts.ts'
import { type Block, type Part, type ReportTable, table } from '../report-model.ts'

/** One table for each factor: a row for each quadrat that has a clean value, and the others by name below it. */
export function factorTables(facts: ReportFacts): Block[] {
  const { material } = facts
  return material.factors.flatMap((factor): Block[] => {
    const missing = material.summary.quadrats.filter(({ label }) => !factor.values.has(label))
    const names = missing.map(({ label }) => label).join(', ')
    return [
      tableOf(facts, factor),
      ...(missing.length === 0
        ? []
        : [{ kind: 'note' as const, text: `No clean value of ${factor.name} at ${names}.` }]),
    ]
  })
}

interface Column {
  heading: string
  cell: (row: Row) => Part
}

interface Row {
  label: string
  zone: string | null
  value: number
  expanded: number | null
  summary: QuadratSummary
}

function tableOf({ survey, material, wish }: ReportFacts, factor: Factor): ReportTable {
  const { text: unit } = shownUnit(factor.unit)
  const rows = material.summary.quadrats.flatMap(({ label, zone }): Row[] => {
    const own = factor.values.get(label)
    const summary = summaryOf(material.summary.summaries, factor, label)
    return own && summary ? [{ label, zone, value: own.value, expanded: own.expanded, summary }] : []
  })
  const measured = (row: Row) => measuredText(factor.quantity, factor.unit, row.value, row.expanded)
  const hasZones = rows.some(({ zone }) => zone !== null)
  const inUnit = unit === '' ? '' : ` (${unit})`
  const columns: Column[] = [
    { heading: 'Quadrat', cell: ({ label }) => ({ text: label, href: notebook.quadrat(survey.id, label) }) },
    ...(hasZones ? [{ heading: 'Zone', cell: ({ zone }: Row) => zone ?? '–' }] : []),
    {
      heading: 'used of received',
      cell: ({ summary }) => `${fixed(summary.n, 0)} of ${fixed(summary.received, 0)}`,
    },
    { heading: `${factor.statistic}${inUnit}`, cell: (row) => measured(row).value },
    { heading: `± 95 %${inUnit}`, cell: (row) => measured(row).interval },
    { heading: 'degrees of freedom', cell: ({ summary }) => freedomCell(summary) },
    { heading: 'k', cell: ({ summary }) => coverCell(summary) },
    ...spreadColumns(rows),
    ...(factor.quantity === 'soil_ph' ? phColumns(wish.withHydrogenIons) : []),
  ]
  const firstNumber = hasZones ? 2 : 1
  return table(
    `${nameWithUnit(factor.name, factor.unit)}: ${factor.statistic} at each quadrat`,
    columns.map(({ heading }) => heading),
    columns.flatMap((_, index) => (index >= firstNumber ? [index] : [])),
    rows.map((row) => columns.map(({ cell }) => cell(row))),
  )
}

function summaryOf(
  summaries: readonly QuadratSummary[],
  factor: Factor,
  label: string,
): QuadratSummary | undefined {
  return summaries.findLast(
    ({ quadrat, quantity, method, unit }) =>
      quadrat === label &&
      quantity === factor.quantity &&
      methodKey(method) === methodKey(factor.method) &&
      (unit === factor.unit || factor.unit === '%'),
  )
}

/** Spread and extremes of the values themselves, in their own unit. */
function spreadColumns(rows: readonly Row[]): Column[] {
  const { factor: by, text } = shownUnit(rows[0]?.summary.unit ?? '')
  const inUnit = text === '' ? '' : ` (${text})`
  const shown = ({ summary }: Row, value: number) =>
    rounded(value * by, decimalsOf((summary.standardDeviation ?? 0) * by) ?? 2)
  return [
    {
      heading: `s${inUnit}`,
      cell: (row) =>
        row.summary.standardDeviation === null ? '–' : shown(row, row.summary.standardDeviation),
    },
    {
      heading: `lowest to highest${inUnit}`,
      cell: (row) => `${shown(row, row.summary.low)} to ${shown(row, row.summary.high)}`,
    },
  ]
}

function phColumns(withHydrogenIons: boolean): Column[] {
  return [
    { heading: 'mean pH', cell: ({ summary }) => fixed(summary.mean, 2) },
    ...(withHydrogenIons
      ? [
          {
            heading: 'pH of mean H⁺',
            cell: ({ summary }: Row) =>
              summary.hydrogenIonMean === null ? '–' : fixed(summary.hydrogenIonMean, 2),
          },
        ]
      : []),
  ]
}

function freedomCell(summary: QuadratSummary): string {
  const cover = coverageOf(summary)
  return cover === null ? '–' : freedomText(cover.freedom)
}

function coverCell(summary: QuadratSummary): string {
  const cover = coverageOf(summary)
  return cover === null ? '–' : fixed(cover.k, 2)
}
