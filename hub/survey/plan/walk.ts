import { isOnTransect, type TransectQuadrat } from '../../contract/quadrat-place.ts'
import type { Quadrat } from '../../contract/survey.ts'
import { halvesInTurn, outAndBack, shortestBrokenWay, type TapeWay } from './out-and-back.ts'
import { shortPath } from './short-path.ts'
import {
  areaKey,
  type FollowsGradient,
  measureWalk,
  SAME_THING_ABOVE,
  strongest,
  walkingMetres,
} from './walk-measure.ts'

/** An order of visiting with what it costs and how far it follows the gradients. */
export interface JudgedWalk {
  /** how it goes, in words */
  words: string
  labels: string[]
  metres: number
  follows: FollowsGradient[]
  /** the largest |r| along a tape */
  strongest: number
}

export interface WalkAdvice {
  planned: JudgedWalk
  /** place and turn are the same thing on these tapes; empty when they are not */
  warnings: string[]
  /** the least walking that keeps them apart; null when no tape has four stations or more, or none is needed */
  proposed: JudgedWalk | null
  /** others to compare with, the shortest first */
  others: JudgedWalk[]
}

/**
 * Says whether an order of visiting can be told from the gradient, and proposes one that can.
 * @param quadrats  those that are visited, in the planned order; lifted ones are left out
 */
export function adviseWalk(quadrats: readonly Quadrat[]): WalkAdvice {
  const order = quadrats.filter(({ lifted }) => lifted === undefined)
  const planned = judgeWalk('as planned', order)
  const warnings = planned.follows.flatMap(({ area, along, r }) =>
    along === 'distance' && r !== null && Math.abs(r) > SAME_THING_ABOVE
      ? [
          `On ${area} the order of visiting follows the tape (rank correlation ${(Math.round(r * 100) / 100).toFixed(2)}): what changes with the place could as well have changed with the time of day.`,
        ]
      : [],
  )
  const proposed = proposeWalk(order)
  const others = [
    compose('along the tape in one sweep', order, (stations) => ({
      order: Array.from({ length: stations }, (_, index) => index),
      words: '',
    })),
    compose('out taking every second one, back taking the others', order, outAndBack),
    compose('near half and far half in turn', order, halvesInTurn),
  ]
  const isOther = (walk: JudgedWalk) => walk.labels.join() !== proposed?.labels.join()
  return {
    planned,
    warnings,
    proposed: proposed && proposed.labels.join() !== planned.labels.join() ? proposed : null,
    others: order.some(isOnTransect)
      ? others.filter(isOther).sort((one, other) => one.metres - other.metres)
      : [],
  }
}

/** The least walking that keeps place and turn apart, area by area; short paths in plots. */
export function proposeWalk(quadrats: readonly Quadrat[]): JudgedWalk | null {
  const words: string[] = []
  const order = areasOf(quadrats).flatMap((area) => {
    const tape = area.filter(isOnTransect)
    if (tape.length === 0) return shortPath(area)
    const stations = stationsOf(tape)
    const way = shortestBrokenWay(
      stations.map((station) => station[0]!.distanceMetres),
      stations.map(({ length }) => length),
    )
    if (way) words.push(`from ${stations[way.order[0]!]![0]!.label} ${way.words}`)
    return way ? alongWay(stations, way) : tape
  })
  if (order.length < 2) return null
  const isPlot = quadrats.every((quadrat) => !isOnTransect(quadrat))
  if (words.length === 0 && !isPlot) return null
  return judgeWalk([...new Set(words)].join('; ') || 'a short path through the plot', order)
}

export function judgeWalk(words: string, order: readonly Quadrat[]): JudgedWalk {
  const follows = measureWalk(order)
  return {
    words,
    labels: order.map(({ label }) => label),
    metres: walkingMetres(order),
    follows,
    strongest: strongest(follows.filter(({ along }) => along === 'distance')),
  }
}

function compose(
  words: string,
  quadrats: readonly Quadrat[],
  wayOf: (stations: number) => TapeWay,
): JudgedWalk {
  const order = areasOf(quadrats).flatMap((area) => {
    const tape = area.filter(isOnTransect)
    if (tape.length === 0) return shortPath(area)
    const stations = stationsOf(tape)
    return alongWay(stations, wayOf(stations.length))
  })
  return judgeWalk(words, order)
}

function areasOf(quadrats: readonly Quadrat[]): Quadrat[][] {
  const areas = new Map<string, Quadrat[]>()
  for (const quadrat of quadrats) {
    const key = areaKey(quadrat)
    areas.set(key, [...(areas.get(key) ?? []), quadrat])
  }
  return [...areas.values()]
}

/** Quadrats at one distance are one station; from left to right. */
function stationsOf(tape: readonly TransectQuadrat[]): TransectQuadrat[][] {
  const stations = new Map<number, TransectQuadrat[]>()
  for (const quadrat of [...tape].sort((one, other) => one.distanceMetres - other.distanceMetres))
    stations.set(quadrat.distanceMetres, [...(stations.get(quadrat.distanceMetres) ?? []), quadrat])
  return [...stations.values()].map((station) =>
    station.sort((one, other) => (one.offsetMetres ?? 0) - (other.offsetMetres ?? 0)),
  )
}

/** Across the belt from left to right and at the next station from right to left. */
function alongWay(stations: readonly TransectQuadrat[][], { order }: TapeWay): Quadrat[] {
  return order.flatMap((station, turn) => {
    const across = stations[station]!
    return turn % 2 === 0 ? across : [...across].reverse()
  })
}
