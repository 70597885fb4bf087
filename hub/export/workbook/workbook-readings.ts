import { rfc3339 } from '../../clock.ts'
import { zoneOrUtc } from '../../study/report/time-text.ts'
import { cleanReadings } from '../clean-readings.ts'
import type { CsvCell } from '../csv-line.ts'
import type { ExportSource } from '../study-export.ts'

/** A sheet with more rows than this is slow on a class’s computers. Common practice, no source. */
export const ROWS_AT_MOST = 200_000
const STEPS_MS = [60_000, 600_000, 3_600_000, 86_400_000] as const

export const READINGS_HEADINGS = [
  'time (UTC)',
  'time at the site',
  'quadrat',
  'transect',
  'distance, m',
  'quantity',
  'value',
  'unit',
  'standard uncertainty',
  'flag (worst)',
  'probe',
  'readings',
]

/**
 * Clean readings as rows of a sheet: each of them where there are few enough, else means over the shortest of a minute,
 * ten minutes, an hour and a day that makes them few enough.
 * @returns the rows, and over how long each is a mean; null: each is a reading
 */
export function readingsOfSheet(
  source: ExportSource,
  clean: number,
  rowsAtMost = ROWS_AT_MOST,
): { rows: CsvCell[][]; stepMs: number | null } {
  if (clean <= rowsAtMost) return { rows: [...rowsOf(source, null)], stepMs: null }
  for (const stepMs of STEPS_MS) {
    const rows: CsvCell[][] = []
    for (const row of rowsOf(source, stepMs)) if (rows.push(row) > rowsAtMost) break
    if (rows.length <= rowsAtMost) return { rows, stepMs }
  }
  return { rows: [], stepMs: STEPS_MS[3] }
}

function* rowsOf(source: ExportSource, stepMs: number | null): Generator<CsvCell[]> {
  const local = localTimes(source.survey.site.timeZone)
  let open = null as { key: string; mean: Mean; write: (mean: Mean) => CsvCell[] } | null
  for (const { segment, readings } of cleanReadings(source)) {
    const { probe, quadrat, calibration } = segment
    const write = ({ timeMs, value, uncertainty, flag, n }: Mean): CsvCell[] => [
      ...[rfc3339(timeMs), local(timeMs), quadrat?.label, quadrat?.transect, quadrat?.distanceMetres],
      ...[probe.quantity, value, calibration?.fitted.unit, uncertainty, flag, probe.id, n],
    ]
    for (const { timeMs, value, uncertainty, flag } of readings) {
      if (stepMs === null) {
        yield write({ timeMs, value, uncertainty, flag, n: 1 })
        continue
      }
      const startMs = Math.floor(timeMs / stepMs) * stepMs
      const key = `${probe.id}\n${quadrat?.label}\n${startMs}`
      if (open?.key === key) {
        add(open.mean, value, uncertainty, flag)
        continue
      }
      if (open) yield open.write(open.mean)
      open = { key, mean: { timeMs: startMs, value, uncertainty, flag, n: 1 }, write }
    }
  }
  if (open) yield open.write(open.mean)
}

interface Mean {
  timeMs: number
  value: number
  uncertainty: number | null
  flag: number
  n: number
}

/** One more value; the uncertainty of probe and calibration is shared, so means of it are means. */
function add(mean: Mean, value: number, uncertainty: number | null, flag: number): void {
  mean.n++
  mean.value += (value - mean.value) / mean.n
  mean.uncertainty =
    mean.uncertainty === null || uncertainty === null
      ? null
      : mean.uncertainty + (uncertainty - mean.uncertainty) / mean.n
  mean.flag = Math.max(mean.flag, flag)
}

/** Swedish writes dates as ISO 8601 does: 2026-06-12 10:00:00. */
function localTimes(zone: string | undefined): (timeMs: number) => string {
  const timeZone = zoneOrUtc(zone)
  const format = new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short', timeStyle: 'medium' })
  return (timeMs) => format.format(timeMs)
}
