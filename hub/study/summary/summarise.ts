import { isRefusal } from '../../../calibration/index.ts'
import { rfc3339 } from '../../clock.ts'
import { isInPlot, isOnTransect } from '../../contract/quadrat-place.ts'
import { quantityFacts } from '../../contract/quantity-facts.ts'

import type { QuadratSummary, StudySummary } from '../../contract/study.ts'
import type { Quadrat, SurveyFile } from '../../contract/survey.ts'
import type { Timelines } from '../../survey/timeline.ts'
import { pairReferences } from '../pairing.ts'
import { describeValues } from '../statistics/describe.ts'
import { cautionsFor } from './cautions.ts'
import {
  type Collected,
  type CountingReader,
  changed,
  collect,
  type GroupName,
  groupKey,
  methodKey,
  type Outline,
  outline,
} from './collect.ts'
import { daysOf } from './days.ts'
import { differenceFromFixed, type FixedDifference, FixedProbes } from './fixed-difference.ts'
import { intervalOfMean, methodUncertaintyOf } from './interval.ts'
import { localDayOf } from './local-day.ts'
import { windOf } from './wind.ts'

export interface SummaryWish {
  /** `common`: only the time in which every standing probe was logging, so that hours are compared with the same hours */
  window?: 'all' | 'common'
  /** pH as −log10 of the mean hydrogen-ion concentration as well */
  withHydrogenIons?: boolean
}

/** Every quantity at every quadrat of a survey, from clean readings alone, with what to beware of. */
export function summariseSurvey(
  reader: CountingReader,
  timelines: Timelines,
  survey: SurveyFile,
  wish: SummaryWish = {},
): StudySummary {
  const quantities = [...new Set(survey.probes.map(({ quantity }) => quantity))]
  const window =
    wish.window === 'common'
      ? commonWindow(outline(reader, timelines, survey.id, undefined, () => true))
      : null
  const span = window ?? undefined
  const at = readersByQuadrat(reader, timelines, survey.id)
  // one quantity at one quadrat at a time, so that no more than its values are in memory
  const collectAt = (label: string, quantity: string) =>
    collect(
      at.get(label)!,
      timelines,
      survey.id,
      span,
      (segment) => segment.quadrat?.label === label && segment.probe.quantity === quantity,
    )
  const open = new Map(
    pairReferences(reader, timelines, survey.id).light.map(({ quadrat, medianPercent }) => [
      quadrat,
      medianPercent,
    ]),
  )
  const dayOf = localDayOf(survey.site.timeZone)
  const order = new Map(survey.quadrats.map(({ label }, index) => [label, index]))
  const summaries = quantities
    .flatMap((quantity) => {
      const all = outline(reader, timelines, survey.id, span, ({ probe }) => probe.quantity === quantity)
      // of each way of measuring there is one at most
      const known = new Map<string, Collected | undefined>()
      const fixed = (group: GroupName) => {
        const key = groupKey(group)
        if (!known.has(key))
          known.set(
            key,
            collectAt(group.quadrat, quantity).find((each) => groupKey(each) === key),
          )
        return known.get(key)
      }
      const probes = new FixedProbes(all)
      const differenceOf = (each: Collected) => differenceFromFixed(each, probes, fixed)
      return [...new Set(all.map(({ quadrat }) => quadrat))].flatMap((quadrat) =>
        collectAt(quadrat, quantity).map((each) =>
          summariseOne(each, differenceOf(each), dayOf, open.get(quadrat) ?? null, wish),
        ),
      )
    })
    .sort(
      (a, b) =>
        placeOfQuantity(a.quantity) - placeOfQuantity(b.quantity) ||
        a.quantity.localeCompare(b.quantity) ||
        methodKey(a.method).localeCompare(methodKey(b.method), 'en', { numeric: true }) ||
        (order.get(a.quadrat) ?? 0) - (order.get(b.quadrat) ?? 0),
    )
  return {
    quadrats: survey.quadrats.map((quadrat) => ({
      label: quadrat.label,
      zone: zoneOf(survey, quadrat),
      distanceMetres: quadrat.distanceMetres ?? null,
      place: placeOf(quadrat),
    })),
    summaries,
    cautions: cautionsFor(summaries),
    window: window && { from: rfc3339(window.fromMs), to: rfc3339(window.toMs) },
  }
}

function summariseOne(
  of: Collected,
  fixedDifference: FixedDifference | null,
  dayOf: (timeMs: number) => string,
  openSkyPercent: number | null,
  wish: SummaryWish,
): QuadratSummary {
  const { quadrat, quantity, method, unit, kind, probes, calibrations, timeMs, value, received } = of
  const described = describeValues(value)
  if (isRefusal(described)) throw new Error(described.message)
  const isLight = quantity === 'illuminance'
  const isPh = quantity === 'soil_ph'
  const interval = intervalOfMean(
    value,
    kind === 'logged' ? described.autocorrelationLag1 : null,
    of.uncertainty,
    methodUncertaintyOf(quantity, method),
  )
  const wind = quantity === 'wind_speed' ? windOf(timeMs, value) : { gust: null, calmPercent: null }
  const statistic = isLight || isPh ? 'median' : 'mean'
  return {
    ...{ quadrat, quantity, method, unit, kind, probes, calibrations, received },
    n: described.n,
    ...interval,
    from: rfc3339(timeMs[0]!),
    to: rfc3339(timeMs.at(-1)!),
    mean: described.mean,
    median: described.median,
    standardDeviation: described.standardDeviation,
    standardError: interval.samplingUncertainty,
    low: described.minimum,
    high: described.maximum,
    lowerQuartile: described.lowerQuartile,
    upperQuartile: described.upperQuartile,
    value: statistic === 'median' ? described.median : described.mean,
    statistic,
    hydrogenIonMean: isPh && wish.withHydrogenIons ? hydrogenIonMean(value) : null,
    days: kind === 'logged' ? daysOf(timeMs, value, dayOf, isLight) : [],
    openSkyPercent: isLight ? openSkyPercent : null,
    ...wind,
    differenceFromFixed: fixedDifference,
  }
}

/**
 * −log10 of the mean of 10^−pH: the pH of waters poured together. For soil the mean of pH itself is right (composited
 * soils behave so: Conyers 2026, Eur. J. Soil Sci., 10.1111/ejss.70329), so this is given only when asked for.
 */
export function hydrogenIonMean(ph: readonly number[]): number {
  return -Math.log10(ph.reduce((sum, each) => sum + 10 ** -each, 0) / ph.length)
}

/** For each quadrat of the survey, a reader of the channels that were ever there. */
function readersByQuadrat(
  reader: CountingReader,
  timelines: Timelines,
  survey: string,
): Map<string, CountingReader> {
  const channels = new Map<string, ReturnType<CountingReader['channels']>>()
  for (const channel of reader.channels()) {
    const labels = timelines
      .of(channel.board, channel.name)
      .flatMap((segment) => (segment.survey.id === survey && segment.quadrat ? [segment.quadrat.label] : []))
    for (const label of new Set(labels)) channels.set(label, [...(channels.get(label) ?? []), channel])
  }
  return new Map([...channels].map(([label, here]) => [label, changed(reader, { channels: () => here })]))
}

/** The time in which all standing probes of a quantity were logging; null when there is none, or no standing probe. */
export function commonWindow(all: readonly Outline[]): { fromMs: number; toMs: number } | null {
  const logged = all.filter(({ kind }) => kind === 'logged')
  const fromMs = Math.max(...logged.map((each) => each.fromMs))
  const toMs = Math.min(...logged.map((each) => each.toMs))
  return logged.length > 0 && fromMs < toMs ? { fromMs, toMs: toMs + 1 } : null
}

/** The five of a habitat study in their order, others after them. */
function placeOfQuantity(name: string): number {
  const place = ['soil_ph', 'soil_moisture', 'illuminance', 'soil_temperature', 'wind_speed'].indexOf(name)
  return place === -1 ? (quantityFacts(name) ? 5 : 6) : place
}

export function zoneOf(survey: SurveyFile, quadrat: Quadrat): string | null {
  if (!isOnTransect(quadrat)) return quadrat.plot ?? null
  const zones = survey.transects.find(({ id }) => id === quadrat.transect)?.zones ?? []
  const { distanceMetres } = quadrat
  const here = zones.filter((zone) => zone.fromMetres <= distanceMetres && distanceMetres <= zone.toMetres)
  // on the line between two zones: the one that begins there
  return here.at(-1)?.name ?? null
}

function placeOf(quadrat: Quadrat): string {
  return isInPlot(quadrat)
    ? `${quadrat.plot}: ${quadrat.xMetres} m, ${quadrat.yMetres} m`
    : `${quadrat.transect}: ${quadrat.distanceMetres} m`
}
