import type { QuadratSummary, StudySummary } from '../../contract/study.ts'
import { type CsvCell, csvLines } from '../csv-line.ts'
import { ucumOf } from '../ucum.ts'
import { type Column, DARWIN_CORE, type DataTable } from './data-table.ts'

type Of = (summary: QuadratSummary, row: number) => CsvCell
type Field = Column & { of: Of }

function field(
  name: string,
  type: Column['type'],
  title: string,
  description: string,
  of: Of,
  more: Partial<Column> = {},
): Field {
  return { name, type, title, description, of, ...more }
}

const number = (name: string, title: string, description: string, of: Of) =>
  field(name, 'number', title, description, of)

/** Every column of the summaries with where it comes from. */
const FIELDS: readonly Field[] = [
  field('row', 'integer', 'Row', 'Counts from 1.', (_each, row) => row + 1),
  field('quadrat', 'string', 'Quadrat', 'Its label on the ground.', (each) => each.quadrat),
  field('quantity', 'string', 'Quantity', 'What was measured.', (each) => each.quantity, {
    propertyUrl: `${DARWIN_CORE}measurementType`,
  }),
  field(
    'way',
    'string',
    'Way',
    'How it was measured. Unlike ways are never pooled.',
    (each) => each.method.way,
  ),
  field('depth_cm', 'number', 'Depth', 'Below the surface.', (each) => each.method.depthCentimetres, {
    unit: 'cm',
  }),
  field('height_m', 'number', 'Height', 'Above the ground.', (each) => each.method.heightMetres, {
    unit: 'm',
  }),
  field(
    'kind',
    'string',
    'Kind',
    '“spot”: insertions of a carried meter. “logged”: a probe that stood there.',
    (each) => each.kind,
  ),
  field('value', 'number', 'Value', 'Stands for the quadrat in graphs and tests.', (each) => each.value, {
    propertyUrl: `${DARWIN_CORE}measurementValue`,
  }),
  field('statistic', 'string', 'Statistic', 'Which statistic the value is.', (each) => each.statistic),
  field('unit', 'string', 'Unit', 'As SenML (RFC 8428) writes it; / is a part of 1.', (each) => each.unit, {
    propertyUrl: `${DARWIN_CORE}measurementUnit`,
  }),
  field('unit_ucum', 'string', 'Unit, UCUM', 'The same by the Unified Code for Units of Measure.', (each) =>
    ucumOf(each.unit),
  ),
  number(
    'expanded',
    '±',
    'Half the width of the 95 % interval of the mean: spread and probe together.',
    (each) => each.expanded,
  ),
  field(
    'n',
    'integer',
    'Values used',
    'Clean values: replicates of spot readings, or logged readings.',
    (each) => each.n,
  ),
  field('received', 'integer', 'Values received', 'At this quadrat, clean or not.', (each) => each.received),
  number(
    'effective_n',
    'Independent values',
    'Neighbours in time resemble each other: so many independent values it is worth.',
    (each) => each.effectiveN,
  ),
  field('from', 'datetime', 'From', 'The first value used, UTC.', (each) => each.from),
  field('to', 'datetime', 'To', 'The last value used, UTC.', (each) => each.to),
  number('mean', 'Mean', 'Arithmetic mean.', (each) => each.mean),
  number('median', 'Median', 'Of an even number of values the mid-value.', (each) => each.median),
  number(
    'standard_deviation',
    'Standard deviation',
    'With n − 1. Empty for a single value.',
    (each) => each.standardDeviation,
  ),
  number('standard_error', 'Standard error', 'Of the mean.', (each) => each.standardError),
  number('low', 'Lowest', 'Lowest value.', (each) => each.low),
  number('high', 'Highest', 'Highest value.', (each) => each.high),
  number(
    'lower_quartile',
    'Lower quartile',
    'A quarter of the values lie below.',
    (each) => each.lowerQuartile,
  ),
  number(
    'upper_quartile',
    'Upper quartile',
    'A quarter of the values lie above.',
    (each) => each.upperQuartile,
  ),
  number(
    'sampling_uncertainty',
    'Uncertainty of sampling',
    'Standard uncertainty (k = 1) from the spread between values.',
    (each) => each.samplingUncertainty,
  ),
  number(
    'probe_uncertainty',
    'Uncertainty of the probe',
    'Standard uncertainty (k = 1) of probe and calibration, which all values share.',
    (each) => each.probeUncertainty,
  ),
  number(
    'method_uncertainty',
    'Uncertainty of the method',
    'Standard uncertainty (k = 1) that direct insertion itself adds.',
    (each) => each.methodUncertainty,
  ),
  number(
    'degrees_of_freedom',
    'Degrees of freedom',
    'Of the interval. Empty: so many that it makes no difference, or not known.',
    (each) => finite(each.degreesOfFreedom),
  ),
  number(
    'hydrogen_ion_mean',
    'pH of the mean hydrogen-ion concentration',
    'Only where it was asked for; for soil the mean of pH itself is right.',
    (each) => each.hydrogenIonMean,
  ),
  field(
    'open_sky_percent',
    'number',
    'Share of open sky',
    'Light beside the open sky at the same moments, median.',
    (each) => each.openSkyPercent,
    { unit: '%' },
  ),
  field(
    'gust',
    'number',
    'Gust',
    'Wind: largest running mean of 3 s, or the largest reading.',
    (each) => each.gust,
    { unit: 'm/s' },
  ),
  field(
    'calm_percent',
    'number',
    'Calm',
    'Wind: share of averaging blocks without a turn of the cups.',
    (each) => each.calmPercent,
    { unit: '%' },
  ),
  number(
    'difference_from_fixed',
    'Difference from the fixed probe',
    'Mean, at the same minutes.',
    (each) => each.differenceFromFixed?.mean,
  ),
  field('probes', 'string', 'Probes', 'With spaces between.', (each) => each.probes.join(' ')),
  field('calibrations', 'string', 'Calibrations', 'With spaces between.', (each) =>
    each.calibrations.join(' '),
  ),
]

function finite(number: number | null): number | null {
  return number !== null && Number.isFinite(number) ? number : null
}

export const SUMMARY_COLUMNS: readonly Column[] = FIELDS.map(({ of: _of, ...column }) => column)

export function summaryRows({ summaries }: StudySummary): CsvCell[][] {
  return summaries.map((summary, row) => FIELDS.map(({ of }) => of(summary, row)))
}

export function summaryTable(summary: StudySummary): DataTable {
  return {
    name: 'summary',
    title: 'Summaries, one row a quadrat, quantity and way of measuring',
    description: 'From clean readings alone.',
    columns: SUMMARY_COLUMNS,
    primaryKey: ['row'],
    lines: csvLines(
      SUMMARY_COLUMNS.map(({ name }) => name),
      summaryRows(summary),
    ),
  }
}
