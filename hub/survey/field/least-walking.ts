import { metresBetween } from '../../contract/quadrat-place.ts'
import type { Quadrat } from '../../contract/survey.ts'

/** Up to so many stops every order is weighed; above that the order is good, not proven the best. */
const EXACT_UP_TO = 11
/** Between transects or plots whose places are not known to each other: further than any walk within one. */
const UNKNOWN_METRES = 100_000
/** Of two ways of one length, the one with its short legs first: nobody walks past a stop to come back to it. */
const EARLY_LEGS_WEIGH = 1e-6

/**
 * Stops in the order of least walking, from where the class is.
 * @param at  null: it may begin anywhere
 * @returns the stops, each once, with the metres from the one before; null where that is not known or it is the first
 *   and nobody has said where the class is
 */
export function leastWalking(
  stops: readonly Quadrat[],
  at: Quadrat | null,
): { quadrat: Quadrat; metres: number | null }[] {
  const order = stops.length <= EXACT_UP_TO ? shortest(stops, at) : shortened(nearestFirst(stops, at), at)
  return order.map((quadrat, index) => {
    const before = index === 0 ? at : order[index - 1]!
    return { quadrat, metres: before === null ? null : metresBetween(before, quadrat) }
  })
}

function distance(from: Quadrat | null, to: Quadrat): number {
  return from === null ? 0 : (metresBetween(from, to) ?? UNKNOWN_METRES)
}

/** Held and Karp 1962: the best way through a set of stops that ends at each of them, set by set. */
function shortest(stops: readonly Quadrat[], at: Quadrat | null): Quadrat[] {
  const count = stops.length
  if (count === 0) return []
  const between = stops.map((from) => stops.map((to) => distance(from, to)))
  const sets = 1 << count
  const best = Array.from({ length: sets }, () => new Float64Array(count).fill(Infinity))
  const before = Array.from({ length: sets }, () => new Int8Array(count).fill(-1))
  for (const [stop, quadrat] of stops.entries())
    best[1 << stop]![stop] = distance(at, quadrat) * (1 + EARLY_LEGS_WEIGH * count)
  for (let set = 1; set < sets; set++) {
    const weight = 1 + EARLY_LEGS_WEIGH * (count - stopsIn(set))
    for (let last = 0; last < count; last++) {
      const metres = best[set]![last]!
      if (metres === Infinity) continue
      for (let next = 0; next < count; next++) {
        if (set & (1 << next)) continue
        const wider = set | (1 << next)
        const total = metres + between[last]![next]! * weight
        if (total >= best[wider]![next]!) continue
        best[wider]![next] = total
        before[wider]![next] = last
      }
    }
  }
  let set = sets - 1
  let last = best[set]!.indexOf(Math.min(...best[set]!))
  const order: Quadrat[] = []
  while (last >= 0) {
    order.unshift(stops[last]!)
    const earlier = before[set]![last]!
    set &= ~(1 << last)
    last = earlier
  }
  return order
}

function stopsIn(set: number): number {
  let count = 0
  for (let left = set; left > 0; left &= left - 1) count++
  return count
}

function nearestFirst(stops: readonly Quadrat[], at: Quadrat | null): Quadrat[] {
  const left = [...stops]
  const order: Quadrat[] = []
  let here = at
  while (left.length > 0) {
    let nearest = 0
    for (let index = 1; index < left.length; index++)
      if (distance(here, left[index]!) < distance(here, left[nearest]!)) nearest = index
    here = left.splice(nearest, 1)[0]!
    order.push(here)
  }
  return order
}

/** Turns stretches of the way round for as long as that shortens it. */
function shortened(order: Quadrat[], at: Quadrat | null): Quadrat[] {
  let isShorter = true
  while (isShorter) {
    isShorter = false
    for (let from = 0; from + 1 < order.length; from++)
      for (let to = from + 1; to < order.length; to++) {
        const before = from === 0 ? at : order[from - 1]!
        const after = order[to + 1]
        const old = distance(before, order[from]!) + (after ? distance(order[to]!, after) : 0)
        const turned = distance(before, order[to]!) + (after ? distance(order[from]!, after) : 0)
        if (turned >= old - 1e-9) continue
        order = [...order.slice(0, from), ...order.slice(from, to + 1).reverse(), ...order.slice(to + 1)]
        isShorter = true
      }
  }
  return order
}
