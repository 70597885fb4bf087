import type { Method } from '../contract/quantity.ts'
import { acceptsSuspect, leftOutWhole } from '../quality/clean.ts'
import type { CleanValues } from '../store/clean-values.ts'
import type { Segment, Timelines } from '../survey/timeline.ts'

/** What the study reads of the store. */
export interface StudyReader {
  channels(): { id: number; board: string; name: string; unit: string }[]
  cleanValues(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues
  /** of these, the first and the last alone */
  cleanEnds(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues
  saturatedMs(channel: number, fromMs: number, toMs: number): number[]
}

/** Clean readings of one probe at one quadrat, under whatever calibrations; spot readings apart from standing ones. */
export interface CleanSeries extends CleanValues {
  quadrat: string
  probe: string
  quantity: string
  method: Method
  unit: string
  /** calibrations that were in force, in order */
  calibrations: string[]
  /** for a spot reading: which, and each insertion on its own */
  spot: { id: string; replicate: number } | null
}

/**
 * All clean readings of a survey, one probe at one quadrat (or one insertion of a carried meter) at a time, so that no
 * more than that is in memory.
 * @param span  only readings from `fromMs` to before `toMs`
 * @param isWanted  only readings of these segments
 */
export function* cleanSeries(
  reader: StudyReader,
  timelines: Timelines,
  survey: string,
  span: { fromMs: number; toMs: number } = { fromMs: -Infinity, toMs: Infinity },
  isWanted: (segment: Segment) => boolean = () => true,
): Generator<CleanSeries> {
  for (const { id, board, name } of reader.channels()) {
    const standing = new Map<string, CleanSeries>()
    for (const segment of timelines.of(board, name)) {
      if (segment.survey.id !== survey || leftOutWhole(segment) !== null || !isWanted(segment)) continue
      const fromMs = Math.max(segment.fromMs, span.fromMs)
      const toMs = Math.min(segment.toMs, span.toMs)
      if (toMs <= fromMs) continue
      const values = reader.cleanValues(id, fromMs, toMs, acceptsSuspect(segment))
      if (values.value.length === 0) continue
      if (segment.spot) {
        const { id: spot, replicate } = segment.spot
        yield { ...describe(segment), ...values, spot: { id: spot, replicate } }
        continue
      }
      const key = `${segment.probe.id}\n${segment.quadrat!.label}`
      const before = standing.get(key)
      if (before) append(before, values, segment.calibration!.id)
      else standing.set(key, { ...describe(segment), ...values, spot: null })
    }
    yield* standing.values()
  }
}

/** What a probe that stands for the whole survey read; `saturatedMs` are the moments at which it was at full scale. */
export interface ReferenceValues extends CleanValues {
  probe: string
  unit: string
  saturatedMs: number[]
}

function noValues(): CleanValues {
  return { timeMs: [], value: [], uncertainty: [] }
}

/**
 * Readings of a probe that stands for the whole survey: light under the open sky, wind at the mast. It need not stand at
 * a quadrat; a passing calibration it does need.
 */
export function referenceValues(
  reader: StudyReader,
  timelines: Timelines,
  survey: string,
  reference: 'open-sky' | 'wind-mast',
): ReferenceValues | null {
  for (const { id, board, name } of reader.channels()) {
    const segments = timelines
      .of(board, name)
      .filter(({ survey: of, probe }) => of.id === survey && probe.reference === reference)
    let all: ReferenceValues | null = null
    for (const segment of segments) {
      if (segment.calibration === null || segment.decision?.action === 'exclude') continue
      const values = reader.cleanValues(id, segment.fromMs, segment.toMs, acceptsSuspect(segment))
      all ??= {
        ...noValues(),
        probe: segment.probe.id,
        unit: segment.calibration.fitted.unit,
        saturatedMs: [],
      }
      append(all, values)
      all.saturatedMs.push(...reader.saturatedMs(id, segment.fromMs, segment.toMs))
    }
    if (all && all.value.length + all.saturatedMs.length > 0) return all
  }
  return null
}

function describe(segment: Segment): Omit<CleanSeries, keyof CleanValues | 'spot'> {
  return {
    quadrat: segment.quadrat!.label,
    probe: segment.probe.id,
    quantity: segment.probe.quantity,
    method: segment.probe.method,
    unit: segment.calibration!.fitted.unit,
    calibrations: [segment.calibration!.id],
  }
}

function append(
  to: CleanValues & { calibrations?: string[] },
  more: CleanValues,
  calibration?: string,
): void {
  for (const name of ['timeMs', 'value', 'uncertainty'] as const)
    for (const number of more[name]) to[name].push(number)
  if (calibration !== undefined && !to.calibrations!.includes(calibration)) to.calibrations!.push(calibration)
}
