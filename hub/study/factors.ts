import type { Method } from '../contract/quantity.ts'
import { quantityFacts } from '../contract/quantity-facts.ts'

import type { QuadratSummary, StudySummary } from '../contract/study.ts'
import { methodKey } from './summary/collect.ts'

/** One abiotic factor as it is compared with species: a value a quadrat. */
export interface Factor {
  /** as a person reads it: “Soil pH, direct insertion, 5 cm deep” */
  name: string
  quantity: string
  method: Method
  /** the method in words, and whether it was carried or stood there where both were done */
  how: string
  unit: string
  statistic: string
  values: Map<string, FactorValue>
}

export interface FactorValue {
  value: number
  n: number
  /** half the width of the 95 % interval; null when it cannot be known */
  expanded: number | null
  /** of this quadrat alone (k = 1): what may change the order of quadrats */
  ownUncertainty: number
  /** of probe and method (k = 1), the same for all */
  sharedUncertainty: number
  /** middle of the time it was measured */
  atMs: number
}

/**
 * The factors of a study. Unlike methods are factors of their own. Light is the percentage of open sky where every
 * quadrat has it, and temperature the difference from a probe that stood still where every quadrat has that: both are
 * comparable between quadrats measured at different times.
 */
export function factorsOf({ summaries }: StudySummary): Factor[] {
  const groups = new Map<string, QuadratSummary[]>()
  for (const summary of summaries) {
    // a carried meter and a probe that stands there are two measurements, neither in place of the other
    const key = JSON.stringify([summary.quantity, methodKey(summary.method), summary.unit, summary.kind])
    groups.set(key, [...(groups.get(key) ?? []), summary])
  }
  const isMixed = ({ quantity, method, unit, kind }: QuadratSummary) =>
    summaries.some(
      (other) =>
        other.quantity === quantity &&
        other.unit === unit &&
        other.kind !== kind &&
        methodKey(other.method) === methodKey(method),
    )
  const isAlone = (quantity: string) =>
    [...groups.values()].filter(([first]) => first!.quantity === quantity).length === 1
  return [...groups.values()].map((group) => {
    const { quantity, method, kind } = group[0]!
    const how = [methodText(method), isMixed(group[0]!) ? kindText[kind] : '']
      .filter((part) => part !== '')
      .join(', ')
    const name = [quantityFacts(quantity)?.label ?? quantity, isAlone(quantity) ? '' : how]
      .filter((part) => part !== '')
      .join(', ')
    return { ...bestForm(group), name: name + nameOfForm(group), quantity, method, how }
  })
}

const kindText = { spot: 'spot readings', logged: 'logged' } as const

/** A method in words; empty when nothing of it is known. */
export function methodText({ way, depthCentimetres, heightMetres }: Method): string {
  return [
    way ?? '',
    depthCentimetres === undefined ? '' : `${depthCentimetres} cm deep`,
    heightMetres === undefined ? '' : `${heightMetres} m high`,
  ]
    .filter((part) => part !== '')
    .join(', ')
}

const isAllOpenSky = (group: readonly QuadratSummary[]) =>
  group.every(({ openSkyPercent }) => openSkyPercent !== null)
const isAllFixed = (group: readonly QuadratSummary[]) =>
  group[0]!.quantity === 'soil_temperature' &&
  group.every(({ kind, differenceFromFixed }) => kind === 'spot' && differenceFromFixed !== null)

function nameOfForm(group: readonly QuadratSummary[]): string {
  if (isAllOpenSky(group)) return ', % of open sky'
  return isAllFixed(group) ? ', difference from the fixed probe' : ''
}

function bestForm(group: readonly QuadratSummary[]): Pick<Factor, 'unit' | 'statistic' | 'values'> {
  const values = (take: (summary: QuadratSummary) => number, scale: (summary: QuadratSummary) => number) =>
    new Map(
      group.map((summary): [string, FactorValue] => {
        const by = scale(summary)
        const shared = Math.hypot(summary.probeUncertainty ?? 0, summary.methodUncertainty ?? 0)
        return [
          summary.quadrat,
          {
            value: take(summary),
            n: summary.n,
            expanded: summary.expanded === null ? null : summary.expanded * by,
            ownUncertainty: (summary.samplingUncertainty ?? 0) * by,
            sharedUncertainty: shared * by,
            atMs: (Date.parse(summary.from) + Date.parse(summary.to)) / 2,
          },
        ]
      }),
    )
  if (isAllOpenSky(group))
    return {
      unit: '%',
      statistic: 'median',
      // the relative uncertainty is that of the lux it was made from
      values: values(
        ({ openSkyPercent }) => openSkyPercent!,
        ({ openSkyPercent, value }) => (value > 0 ? openSkyPercent! / value : 0),
      ),
    }
  if (isAllFixed(group))
    return {
      unit: group[0]!.unit,
      statistic: 'mean',
      values: values(
        ({ differenceFromFixed }) => differenceFromFixed!.mean,
        () => 1,
      ),
    }
  const { unit, statistic } = group[0]!
  return {
    unit,
    statistic,
    values: values(
      ({ value }) => value,
      () => 1,
    ),
  }
}
