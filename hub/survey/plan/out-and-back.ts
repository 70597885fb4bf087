import { BROKEN_AT_MOST, followsOrder } from './walk-measure.ts'

/** A way along a tape: indices of its stations in the order of visiting, and in words how it goes. */
export interface TapeWay {
  order: number[]
  words: string
}

/**
 * The way over the stations of a tape with the least walking whose order does not follow the distance.
 *
 * Candidates: begin at any station, go out to one end taking all, every second or every third station, and take the rest
 * on the way back to the other end; out, back and out again; the two halves in turn. With up to 7 stations every order is
 * looked at.
 * @param distances  metres from the zero mark, rising, each once
 * @param weights  quadrats at each station
 * @returns null with fewer than 4 stations: no order of three breaks the tie
 */
export function shortestBrokenWay(distances: readonly number[], weights: readonly number[]): TapeWay | null {
  if (distances.length < 4) return null
  const candidates =
    distances.length <= EVERY_ORDER_UP_TO ? allOrders(distances.length) : usualWays(distances.length)
  let best: { way: TapeWay; metres: number; r: number } | null = null
  for (const way of candidates) {
    const places = way.order.flatMap((station) => Array<number>(weights[station]!).fill(distances[station]!))
    const r = Math.abs(followsOrder(places) ?? 0)
    if (r > BROKEN_AT_MOST) continue
    const metres = metresAlong(way.order.map((station) => distances[station]!))
    const isBetter =
      best === null || metres < best.metres - 1e-9 || (metres < best.metres + 1e-9 && r < best.r)
    if (isBetter) best = { way, metres, r }
  }
  return best?.way ?? null
}

/** Out over the even stations and back over the odd ones. */
export function outAndBack(stations: number): TapeWay {
  const all = Array.from({ length: stations }, (_, index) => index)
  return {
    order: [...all.filter((index) => index % 2 === 0), ...all.filter((index) => index % 2 === 1).reverse()],
    words: 'out taking every second one, back taking the others',
  }
}

/** Near half and far half in turn: much walking, place and time well apart. */
export function halvesInTurn(stations: number): TapeWay {
  const half = Math.ceil(stations / 2)
  const order = Array.from({ length: stations }, (_, turn) =>
    turn % 2 === 0 ? turn / 2 : half + (turn - 1) / 2,
  )
  return { order, words: 'one of the near half, one of the far half, in turn' }
}

/** 7 stations have 5040 orders, 8 have 40,320. */
const EVERY_ORDER_UP_TO = 7
/** On longer tapes not every station is tried as the first one. */
const STARTS_TRIED_AT_MOST = 60
/** No class visits more; only the simple ways are compared. */
const STATIONS_SEARCHED_AT_MOST = 500

function usualWays(stations: number): TapeWay[] {
  const ways = [outAndBack(stations), halvesInTurn(stations)]
  if (stations > STATIONS_SEARCHED_AT_MOST) return ways
  const mirrored = (order: readonly number[]) => order.map((station) => stations - 1 - station)
  for (let start = 0; start < stations; start += Math.ceil(stations / STARTS_TRIED_AT_MOST))
    for (const every of [1, 2, 3])
      for (const passes of [2, 3]) {
        const order = sweeps(stations, start, every, passes)
        const words = sweepWords(every, passes)
        ways.push({ order, words }, { order: mirrored(order), words })
      }
  return ways
}

/** From a station to the far end over every `every`th one, back to the zero mark, and with three passes out again. */
function sweeps(stations: number, start: number, every: number, passes: number): number[] {
  const left = new Set(Array.from({ length: stations }, (_, index) => index))
  const order: number[] = []
  const take = (station: number) => {
    left.delete(station)
    order.push(station)
  }
  for (let station = start; station < stations; station += every) take(station)
  for (let station = stations - 1, passed = 0; station >= 0; station--) {
    if (!left.has(station)) continue
    // with a third pass to come, every second one is left for it
    if (passes === 2 || passed++ % 2 === 0) take(station)
  }
  for (const station of [...left]) take(station)
  return order
}

function sweepWords(every: number, passes: number): string {
  const out = every === 1 ? 'all' : every === 2 ? 'every second one' : 'every third one'
  return passes === 2
    ? `to one end taking ${out}, then to the other end taking the rest`
    : `to one end taking ${out}, back taking every second of the rest, out again for what is left`
}

function allOrders(stations: number): TapeWay[] {
  let orders: number[][] = [[]]
  for (let station = 0; station < stations; station++)
    orders = orders.flatMap((order) =>
      Array.from({ length: order.length + 1 }, (_, at) => order.toSpliced(at, 0, station)),
    )
  return orders.map((order) => ({ order, words: 'in the shortest order that does not follow the tape' }))
}

function metresAlong(places: readonly number[]): number {
  return places.reduce((sum, place, turn) => sum + (turn === 0 ? 0 : Math.abs(place - places[turn - 1]!)), 0)
}
