import { isRefusal } from '../../../calibration/index.ts'
import { quantityFacts } from '../../contract/quantity-facts.ts'

import type { FactorCaution, QuadratSummary } from '../../contract/study.ts'
import { spearman } from '../statistics/spearman.ts'
import { methodKey } from './collect.ts'

/** Beyond this, time of visit explains the factor as well as the place does. Common practice, no source. */
const CLOCK_RHO = 0.6
/** Fewer quadrats than this cannot show a correlation, common practice: 8 is the floor worth running, 5 needs a perfect order. */
const FEWEST = 8
const FEWEST_FOR_CLOCK = 5

/** What a reader must know before comparing quadrats: told for each quantity and way of measuring it. */
export function cautionsFor(summaries: readonly QuadratSummary[]): FactorCaution[] {
  const groups = new Map<string, QuadratSummary[]>()
  for (const summary of summaries) {
    const key = `${summary.quantity}\n${methodKey(summary.method)}`
    groups.set(key, [...(groups.get(key) ?? []), summary])
  }
  const cautions = [...groups.values()].flatMap((group) => [
    ...differentHours(group),
    ...followsClock(group),
    ...fewQuadrats(group),
    ...differentSoil(group),
  ])
  return [...cautions, ...unlikeMethods([...groups.values()])]
}

function about(group: readonly QuadratSummary[], kind: FactorCaution['kind'], text: string): FactorCaution {
  const { quantity, method } = group[0]!
  return { quantity, method, kind, text }
}

const labelOf = (quantity: string) => quantityFacts(quantity)?.label ?? quantity

/** Some quadrats were done before others were begun, and nothing that was logged meanwhile makes up for it. */
function differentHours(group: readonly QuadratSummary[]): FactorCaution[] {
  const isPaired = group.every(
    ({ openSkyPercent, differenceFromFixed }) => openSkyPercent !== null || differenceFromFixed !== null,
  )
  const first = group.reduce((a, b) => (a.to < b.to ? a : b))
  const last = group.reduce((a, b) => (a.from > b.from ? a : b))
  if (isPaired || first.to >= last.from) return []
  const hours = (Date.parse(last.from) - Date.parse(first.to)) / 3_600_000
  const apart = hours >= 1 ? `${hours.toFixed(1)} h` : `${Math.round(hours * 60)} min`
  return [
    about(
      group,
      'different-hours',
      `${labelOf(group[0]!.quantity)} at ${last.quadrat} was measured ${apart} after ${first.quadrat}: what changed meanwhile looks like a difference between places.`,
    ),
  ]
}

function followsClock(group: readonly QuadratSummary[]): FactorCaution[] {
  const isAtOnce = group.every(({ from }) => group.every(({ to }) => to >= from))
  if (group.length < FEWEST_FOR_CLOCK || isAtOnce) return []
  const middle = ({ from, to }: QuadratSummary) => (Date.parse(from) + Date.parse(to)) / 2
  const answer = spearman(
    group.map(middle),
    group.map(({ value }) => value),
  )
  if (isRefusal(answer) || answer.rho === null || Math.abs(answer.rho) <= CLOCK_RHO) return []
  return [
    about(
      group,
      'follows-clock',
      `${labelOf(group[0]!.quantity)} goes with the time of the visit (rank correlation ${answer.rho.toFixed(2)}): it may be the clock, not the place. Compare it paired with a probe that stood still, or visit in another order.`,
    ),
  ]
}

function fewQuadrats(group: readonly QuadratSummary[]): FactorCaution[] {
  if (group.length >= FEWEST) return []
  const text = `${labelOf(group[0]!.quantity)} is known at ${group.length} ${group.length === 1 ? 'quadrat' : 'quadrats'}; a correlation needs 8 or more to be worth looking for.`
  return [about(group, 'few-quadrats', text)]
}

function differentSoil(group: readonly QuadratSummary[]): FactorCaution[] {
  const used = new Set(group.map(({ calibrations }) => calibrations.join(' ')))
  // probes that stand have a calibration each; one that is carried has several only when somebody changed it
  const isOneProbe = new Set(group.flatMap(({ probes }) => probes)).size === 1
  if (group[0]!.quantity !== 'soil_moisture' || !isOneProbe || used.size < 2) return []
  const text =
    'One moisture probe was used with different calibrations: differences between soils and between calibrations look alike.'
  return [about(group, 'different-soil', text)]
}

function unlikeMethods(groups: readonly QuadratSummary[][]): FactorCaution[] {
  const byQuantity = new Map<string, QuadratSummary[][]>()
  for (const group of groups) {
    const { quantity } = group[0]!
    byQuantity.set(quantity, [...(byQuantity.get(quantity) ?? []), group])
  }
  return [...byQuantity].flatMap(([quantity, alike]) =>
    alike.length < 2
      ? []
      : [
          about(
            alike[0]!,
            'unlike-methods',
            `${labelOf(quantity)} was measured in ${alike.length} ways (depth, height, slurry or direct). They are kept apart, and must not be compared.`,
          ),
        ],
  )
}
