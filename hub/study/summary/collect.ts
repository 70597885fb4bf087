import type { Method } from '../../contract/quantity.ts'
import type { Segment, Timelines } from '../../survey/timeline.ts'
import { cleanSeries, type StudyReader } from '../clean-series.ts'

/** One quantity, measured in one way, at one quadrat. */
export interface GroupName {
  quadrat: string
  quantity: string
  method: Method
  unit: string
  kind: 'spot' | 'logged'
}

/** The clean values of such a group; times rising. */
export interface Collected extends GroupName {
  probes: string[]
  calibrations: string[]
  timeMs: number[]
  value: number[]
  uncertainty: number[]
  received: number
}

export interface CountingReader extends StudyReader {
  /** readings of a channel in a span, clean or not */
  received(channel: number, fromMs: number, toMs: number): number
}

export function groupKey({ quadrat, quantity, method, unit, kind }: GroupName): string {
  return JSON.stringify([quadrat, quantity, methodKey(method), unit, kind])
}

export function methodKey(method: Method): string {
  return JSON.stringify([method.way, method.depthCentimetres, method.heightMetres])
}

/**
 * Gathers a survey's clean readings; each insertion of a carried meter becomes one value, its mean.
 * @param span  only readings from `fromMs` to before `toMs`
 * @param isWanted  only readings of these segments
 */
export function collect(
  reader: CountingReader,
  timelines: Timelines,
  survey: string,
  span?: { fromMs: number; toMs: number },
  isWanted: (segment: Segment) => boolean = () => true,
): Collected[] {
  const groups = new Map<string, Collected>()
  for (const series of cleanSeries(reader, timelines, survey, span, isWanted)) {
    const { quadrat, quantity, method, unit } = series
    const kind = series.spot ? 'spot' : 'logged'
    const key = groupKey({ quadrat, quantity, method, unit, kind })
    let group = groups.get(key)
    if (!group) {
      const empty = { probes: [], calibrations: [], timeMs: [], value: [], uncertainty: [], received: 0 }
      group = { quadrat, quantity, method, unit, kind, ...empty }
      groups.set(key, group)
    }
    if (!group.probes.includes(series.probe)) group.probes.push(series.probe)
    for (const id of series.calibrations) if (!group.calibrations.includes(id)) group.calibrations.push(id)
    if (series.spot) {
      const middle = (series.timeMs[0]! + series.timeMs.at(-1)!) / 2
      group.timeMs.push(middle)
      group.value.push(meanOf(series.value))
      group.uncertainty.push(meanOf(series.uncertainty.filter(Number.isFinite)))
    } else if (group.value.length === 0) {
      // a hundred thousand numbers need not be copied
      const { timeMs, value, uncertainty } = series
      Object.assign(group, { timeMs, value, uncertainty })
    } else
      for (const name of ['timeMs', 'value', 'uncertainty'] as const)
        for (const number of series[name]) group[name].push(number)
  }
  countReceived(reader, timelines, survey, groups, isWanted, span)
  for (const group of groups.values()) sortByTime(group)
  return [...groups.values()]
}

/** The same groups with nothing but the ends of each: when its first and last values were. */
export function outline(
  reader: CountingReader,
  timelines: Timelines,
  survey: string,
  span: { fromMs: number; toMs: number } | undefined,
  isWanted: (segment: Segment) => boolean,
): Outline[] {
  const ends = changed(reader, {
    cleanValues: (...of) => reader.cleanEnds(...of),
    received: () => 0,
  })
  return collect(ends, timelines, survey, span, isWanted).map(
    ({ quadrat, quantity, method, unit, kind, probes, timeMs }) => ({
      ...{ quadrat, quantity, method, unit, kind, probes },
      fromMs: timeMs[0]!,
      toMs: timeMs.at(-1)!,
    }),
  )
}

/** A reader that answers some questions in another way. */
export function changed(reader: CountingReader, by: Partial<CountingReader>): CountingReader {
  return {
    channels: () => reader.channels(),
    cleanValues: (...of) => reader.cleanValues(...of),
    cleanEnds: (...of) => reader.cleanEnds(...of),
    saturatedMs: (...of) => reader.saturatedMs(...of),
    received: (...of) => reader.received(...of),
    ...by,
  }
}

export interface Outline extends GroupName {
  probes: string[]
  fromMs: number
  toMs: number
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

/** All readings at the quadrat, clean or not; of a carried meter all insertions. */
function countReceived(
  reader: CountingReader,
  timelines: Timelines,
  survey: string,
  groups: ReadonlyMap<string, Collected>,
  isWanted: (segment: Segment) => boolean,
  span = { fromMs: -Infinity, toMs: Infinity },
): void {
  const insertions = new Set<string>()
  for (const { id, board, name } of reader.channels())
    for (const segment of timelines.of(board, name)) {
      const fromMs = Math.max(segment.fromMs, span.fromMs, -8.64e15)
      const toMs = Math.min(segment.toMs, span.toMs, 8.64e15)
      if (segment.survey.id !== survey || segment.quadrat === null || toMs <= fromMs) continue
      if (!isWanted(segment)) continue
      const { quantity, method } = segment.probe
      const unit = segment.calibration?.fitted.unit
      const kind = segment.spot ? 'spot' : 'logged'
      const label = segment.quadrat.label
      const group =
        groups.get(JSON.stringify([label, quantity, methodKey(method), unit, kind])) ??
        [...groups.values()].find(
          (each) => each.quadrat === label && each.quantity === quantity && each.kind === kind,
        )
      if (!group) continue
      if (segment.spot) {
        const insertion = `${segment.spot.id}/${segment.spot.replicate}`
        if (!insertions.has(insertion)) group.received++
        insertions.add(insertion)
        continue
      }
      group.received += reader.received(id, fromMs, toMs)
    }
}

function sortByTime(group: Collected): void {
  const { timeMs } = group
  if (timeMs.every((time, index) => index === 0 || timeMs[index - 1]! <= time)) return
  const order = timeMs.map((_, index) => index).sort((one, other) => timeMs[one]! - timeMs[other]!)
  for (const name of ['timeMs', 'value', 'uncertainty'] as const)
    group[name] = order.map((index) => group[name][index]!)
}
