import { combine, expandedUncertainty } from '../../calibration/index.ts'
import { quantityFacts } from '../contract/quantity-facts.ts'

import type { ReplicateValue, Spot, SpotValue } from '../contract/spot.ts'
import { acceptsSuspect, isCleanReading, leftOutWhole, NO_VALUE } from '../quality/clean.ts'
import type { ReadingRow } from '../store/store.ts'
import type { Timelines } from './timeline.ts'

/** The most readings one insertion can have: fifteen minutes at ten a second. */
const READINGS_AT_MOST = 10_000

/** Differences between replicates beyond these are told: take more, do not delete. Common practice, no source. */
const WIDEST_RANGE: Readonly<Record<string, { by: number; ratio?: true; text: string }>> = {
  soil_ph: { by: 0.5, text: 'pH differs by more than 0.5 between replicates' },
  soil_moisture: { by: 0.1, text: 'moisture differs by more than 0.10 (10 %) between replicates' },
  illuminance: { by: 2, ratio: true, text: 'light differs more than twofold between replicates' },
}

/** How the stored readings of a span are found. */
export interface ReadSpan {
  channels(): { id: number; board: string; name: string; unit: string }[]
  readingsBetween(channel: number, fromMs: number, toMs: number, atMost: number): ReadingRow[]
}

/** Spot readings with what they come to, by the calibrations now in force; of a survey, newest first. */
export function spotValues(reader: ReadSpan, timelines: Timelines, survey: string): SpotValue[] {
  const channels = new Map<string, number[]>()
  for (const { id, board, name } of reader.channels()) {
    const key = `${board}/${name}`
    channels.set(key, [...(channels.get(key) ?? []), id])
  }
  return timelines.spots
    .filter((spot) => spot.survey === survey)
    .map((spot) => spotValue(reader, timelines, channels, spot))
    .filter((value) => value !== null)
    .sort((one, other) => startOf(other.spot) - startOf(one.spot))
}

function startOf(spot: Spot): number {
  return Date.parse(spot.replicates[0]!.from)
}

function spotValue(
  reader: ReadSpan,
  timelines: Timelines,
  channels: ReadonlyMap<string, number[]>,
  spot: Spot,
): SpotValue | null {
  const survey = timelines.surveys.find(({ id }) => id === spot.survey)
  const probe = survey?.probes.find(({ id }) => id === spot.probe)
  if (!probe) return null
  const ids = channels.get(`${probe.board}/${probe.channel}`) ?? []
  const segmentAt = (timeMs: number) => timelines.at(probe.board, probe.channel, timeMs)
  const replicates = spot.replicates.map(({ from, to, isSteady }): ReplicateValue => {
    const [fromMs, toMs] = [Date.parse(from), Date.parse(to)]
    const rows = ids.flatMap((id) => reader.readingsBetween(id, fromMs, toMs, READINGS_AT_MOST))
    const segment = segmentAt(fromMs)
    const whole = spot.isTakenBack ? 'taken back' : leftOutWhole(segment)
    const clean = rows.filter((row) => isCleanReading(row, acceptsSuspect(segment)))
    // a value that does not count is shown all the same, as what it was
    const counted = clean.length > 0 ? clean : rows.filter((row) => row.value !== null && row.flag !== 4)
    return {
      from,
      to,
      isSteady,
      value: meanOf(counted.map((row) => row.value!)),
      uncertainty: meanOf(counted.flatMap((row) => row.uncertainty ?? [])),
      readings: rows.length,
      leftOut: whole ?? (clean.length > 0 ? null : rows.length === 0 ? 'no readings' : reasonOf(rows)),
    }
  })
  const clean = replicates.filter((replicate) => replicate.leftOut === null && replicate.value !== null)
  const values = clean.map((replicate) => replicate.value!)
  return {
    spot,
    quantity: probe.quantity,
    method: probe.method,
    unit: segmentAt(startOf(spot))?.calibration?.fitted.unit ?? quantityFacts(probe.quantity)?.unit ?? '',
    replicates,
    n: values.length,
    mean: meanOf(values),
    range: values.length < 2 ? null : Math.max(...values) - Math.min(...values),
    expanded: expandedOfMean(clean),
    warnings: rangeWarnings(probe.quantity, values),
  }
}

function meanOf(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length
}

/** The first test that set the worst flag, in its own name. */
function reasonOf(rows: readonly ReadingRow[]): string {
  const why = rows.find((row) => row.why !== null)?.why
  const reasons = why ? (JSON.parse(why) as { test: string }[]) : []
  return reasons[0]?.test ?? NO_VALUE
}

/**
 * Half the width of the 95 % interval of the mean of replicates: their spread s/√n with n − 1 degrees of freedom, and
 * the probe's own standard uncertainty, which they share, together. Null with a single replicate: its spread is not known.
 * @see JCGM 100:2008 G.4
 */
function expandedOfMean(replicates: readonly ReplicateValue[]): number | null {
  const n = replicates.length
  if (n < 2) return null
  const mean = meanOf(replicates.map(({ value }) => value!))!
  const variance = replicates.reduce((sum, { value }) => sum + (value! - mean) ** 2, 0) / (n - 1)
  const shared = meanOf(replicates.flatMap(({ uncertainty }) => uncertainty ?? [])) ?? 0
  const { standardUncertainty, degreesOfFreedom } = combine([
    { standardUncertainty: Math.sqrt(variance / n), degreesOfFreedom: n - 1 },
    { standardUncertainty: shared, degreesOfFreedom: Number.POSITIVE_INFINITY },
  ])
  return standardUncertainty === 0 ? 0 : expandedUncertainty(standardUncertainty, degreesOfFreedom)
}

function rangeWarnings(quantity: string, values: readonly number[]): string[] {
  const widest = WIDEST_RANGE[quantity]
  if (!widest || values.length < 2) return []
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const differs = widest.ratio ? low > 0 && high / low > widest.by : high - low > widest.by + 1e-9
  return differs ? [widest.text] : []
}
