import {
  isRefusal,
  type OpenSkyReading,
  type RelativeLightRemark,
  relativeLight,
} from '../../calibration/index.ts'
import type { LightPair, Pairing, RelativeLightOfQuadrat, WindBesideMast } from '../contract/pairing.ts'
import type { CleanValues } from '../store/clean-values.ts'
import type { Segment, Timelines } from '../survey/timeline.ts'
import {
  type CleanSeries,
  cleanSeries,
  type ReferenceValues,
  referenceValues,
  type StudyReader,
} from './clean-series.ts'
import { quantileOfSorted } from './statistics/quantile.ts'

const MINUTE_MS = 60_000
/** The reference is searched this far around a reading; further away it says nothing about the moment. */
const AROUND_MS = 300_000
const EXAMPLES = 40

const remarkText: Record<RelativeLightRemark, string> = {
  'reference-stale': 'the nearest open-sky reading is too far away in time',
  'reference-unsteady': 'the open sky changed by more than 10 % around that moment',
  'above-open-sky': 'brighter than the open sky',
}

/** The open sky and the mast paired in time with what was measured at the quadrats. */
export function pairReferences(reader: StudyReader, timelines: Timelines, survey: string): Pairing {
  const sky = referenceValues(reader, timelines, survey, 'open-sky')
  const mast = referenceValues(reader, timelines, survey, 'wind-mast')
  const light = new Map<string, { of: CleanSeries; pairs: LightPair[] }>()
  const wind: WindBesideMast[] = []
  const isWanted = ({ probe: { id, quantity } }: Segment) =>
    (sky !== null && quantity === 'illuminance' && id !== sky.probe) ||
    (mast !== null && quantity === 'wind_speed' && id !== mast.probe)
  for (const series of cleanSeries(reader, timelines, survey, undefined, isWanted)) {
    if (sky && series.quantity === 'illuminance') {
      const key = `${series.quadrat}\n${series.probe}`
      const group = light.get(key) ?? { of: series, pairs: [] }
      light.set(key, group)
      for (const pair of lightPairs(series, sky)) group.pairs.push(pair)
    }
    if (mast && series.quantity === 'wind_speed') wind.push(besideMast(series, mast))
  }
  return {
    openSky: sky?.probe ?? null,
    windMast: mast?.probe ?? null,
    light: [...light.values()].map(({ of, pairs }) => summarise(of, pairs)),
    wind,
  }
}

/**
 * Each light reading of a series with the open sky at the same moment, interpolated.
 * An insertion of a carried meter is one pair: its mean at its middle.
 */
export function lightPairs(series: CleanSeries, sky: SkyValues): LightPair[] {
  const open = openSkyReadings(sky)
  const moments = series.spot
    ? [middleOf(series)]
    : series.timeMs.map((timeMs, index) => ({ timeMs, lux: series.value[index]! }))
  let first = 0
  return moments.map(({ timeMs, lux }) => {
    while (first < open.length && open[first]!.seconds * 1000 < timeMs - AROUND_MS) first++
    let last = first
    while (last < open.length && open[last]!.seconds * 1000 <= timeMs + AROUND_MS) last++
    const reference = open.slice(first, last)
    const answer = relativeLight({ probeLux: lux, seconds: timeMs / 1000, reference })
    if (isRefusal(answer)) return { timeMs, lux, openLux: null, percent: null, remarks: [answer.message] }
    return {
      timeMs,
      lux,
      openLux: answer.referenceLux,
      percent: answer.relativePercent,
      remarks: answer.remarks.map((remark) => remarkText[remark]),
    }
  })
}

type SkyValues = CleanValues & Partial<Pick<ReferenceValues, 'saturatedMs'>>

/** The open sky in time order, with the moments at which the sensor was at full scale among them. */
function openSkyReadings({ timeMs, value, saturatedMs = [] }: SkyValues): OpenSkyReading[] {
  const readings: OpenSkyReading[] = timeMs.map((time, index) => ({
    seconds: time / 1000,
    lux: value[index]!,
  }))
  for (const time of saturatedMs)
    readings.push({ seconds: time / 1000, lux: Number.POSITIVE_INFINITY, saturated: true })
  return saturatedMs.length === 0 ? readings : readings.sort((one, other) => one.seconds - other.seconds)
}

function middleOf({ timeMs, value }: CleanValues): { timeMs: number; lux: number } {
  return {
    timeMs: (timeMs[0]! + timeMs.at(-1)!) / 2,
    lux: value.reduce((sum, each) => sum + each, 0) / value.length,
  }
}

function summarise({ quadrat, probe }: CleanSeries, pairs: readonly LightPair[]): RelativeLightOfQuadrat {
  const counted = pairs.flatMap(({ percent, remarks }) =>
    percent !== null && remarks.length === 0 ? [percent] : [],
  )
  counted.sort((one, other) => one - other)
  const at = (share: number) => (counted.length === 0 ? null : quantileOfSorted(counted, share))
  const remarks = new Map<string, number>()
  for (const pair of pairs) for (const text of pair.remarks) remarks.set(text, (remarks.get(text) ?? 0) + 1)
  const every = Math.max(1, Math.ceil(pairs.length / EXAMPLES))
  return {
    quadrat,
    probe,
    readings: pairs.length,
    paired: counted.length,
    medianPercent: at(0.5),
    lowerQuartilePercent: at(0.25),
    upperQuartilePercent: at(0.75),
    remarks: [...remarks].map(([text, n]) => ({ text, n })),
    examples: pairs.filter((_, index) => index % every === 0),
  }
}

/** Means over the minutes in which both were measured; a mast that was calm has no ratio. */
export function besideMast(series: CleanSeries, mast: CleanValues): WindBesideMast {
  const here = minuteMeans(series)
  const there = minuteMeans(mast)
  const both = [...here.keys()].filter((minute) => there.has(minute))
  const mean = (of: ReadonlyMap<number, number>) =>
    both.length === 0 ? null : both.reduce((sum, minute) => sum + of.get(minute)!, 0) / both.length
  const meanMetresPerSecond = mean(here)
  const mastMetresPerSecond = mean(there)
  return {
    quadrat: series.quadrat,
    probe: series.probe,
    minutes: both.length,
    meanMetresPerSecond,
    mastMetresPerSecond,
    ratio: mastMetresPerSecond ? meanMetresPerSecond! / mastMetresPerSecond : null,
  }
}

function minuteMeans({ timeMs, value }: CleanValues): Map<number, number> {
  const sums = new Map<number, { sum: number; n: number }>()
  for (const [index, time] of timeMs.entries()) {
    const minute = Math.floor(time / MINUTE_MS)
    const before = sums.get(minute) ?? { sum: 0, n: 0 }
    sums.set(minute, { sum: before.sum + value[index]!, n: before.n + 1 })
  }
  return new Map([...sums].map(([minute, { sum, n }]) => [minute, sum / n]))
}
