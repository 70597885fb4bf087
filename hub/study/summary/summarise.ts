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
import { type Collected, type CountingReader, collect, methodKey } from './collect.ts'
import { daysOf } from './days.ts'
import { differenceFromFixed } from './fixed-difference.ts'
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
  // one quantity at a time, so that no more than its values are in memory
  const collected = (quantity: string, span?: { fromMs: number; toMs: number }) =>
    collect(reader, timelines, survey.id, span, (probe) => probe.quantity === quantity)
  const window =
    wish.window === 'common'
      ? commonWindow(quantities.flatMap((quantity) => collected(quantity).map(endsOf)))
      : null
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
      const all = collected(quantity, window ?? undefined)
      return all.map((each) => summariseOne(each, all, dayOf, open.get(each.quadrat) ?? null, wish))
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
  all: readonly Collected[],
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
    differenceFromFixed: differenceFromFixed(of, all),
  }
}

/**
 * −log10 of the mean of 10^−pH: the pH of waters poured together. For soil the mean of pH itself is right (composited
 * soils behave so: Conyers 2026, Eur. J. Soil Sci., 10.1111/ejss.70329), so this is given only when asked for.
 */
export function hydrogenIonMean(ph: readonly number[]): number {
  return -Math.log10(ph.reduce((sum, each) => sum + 10 ** -each, 0) / ph.length)
}

type Ends = Pick<Collected, 'kind' | 'timeMs'>

function endsOf({ kind, timeMs }: Collected): Ends {
  return { kind, timeMs: [timeMs[0]!, timeMs.at(-1)!] }
}

/** The time in which all standing probes of a quantity were logging; null when there is none, or no standing probe. */
export function commonWindow(collected: readonly Ends[]): { fromMs: number; toMs: number } | null {
  const logged = collected.filter(({ kind }) => kind === 'logged')
  const fromMs = Math.max(...logged.map(({ timeMs }) => timeMs[0]!))
  const toMs = Math.min(...logged.map(({ timeMs }) => timeMs.at(-1)!))
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
