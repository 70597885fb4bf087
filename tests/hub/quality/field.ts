import type { Neighbour, Series, Surroundings } from '../../../hub/quality/quality-test.ts'
import { solarElevationDegrees } from '../../../hub/quality/sun.ts'
import { seeded } from './seeded.ts'

const LATITUDE = 51.5
const LONGITUDE = -1.2
export const START_MS = Date.UTC(2026, 5, 12, 8)

/**
 * A faultless quadrat: what five good probes read there, night and day, with sunflecks, gusts, reading noise and the
 * steps of their converters.
 * @param openness  0 in the wood, 1 on the open bank
 */
export function quadratOf(seed: number, openness: number, intervalMs: number, count: number) {
  const chance = seeded(seed)
  const timeMs = Array.from({ length: count }, (_, n) => START_MS + n * intervalMs)
  const of = (
    quantity: string,
    signalUnit: string,
    signal: number[],
    valueAt: (signal: number) => number,
  ): Series => ({
    timeMs,
    signal,
    value: signal.map(valueAt),
    quantity,
    signalUnit,
    expectedIntervalMs: intervalMs,
  })
  const dayPart = (at: number) => ((at % 86_400_000) / 86_400_000) * 2 * Math.PI

  const truePh = 5 + 1.6 * openness + chance.between(-0.4, 0.4)
  const phWander = chance.wander(7_200_000)
  const ph = timeMs.map((at) => {
    const level = truePh + 0.03 * phWander(at)
    return Math.round((3 + 56.5 * (7 - level) + 0.3 * chance.normal()) * 10) / 10
  })

  const trueWetness = 0.75 - 0.45 * openness + chance.between(-0.08, 0.08)
  const wetWander = chance.wander(10_800_000)
  const moisture = timeMs.map((at) =>
    Math.round(820 - 430 * (trueWetness + 0.02 * wetWander(at)) + 0.8 * chance.normal()),
  )

  const clouds = chance.wander(900_000)
  let isFleck = false
  const light = timeMs.map((at) => {
    const height = Math.sin((Math.max(0, solarElevationDegrees(LATITUDE, LONGITUDE, at)) * Math.PI) / 180)
    const open = 75_000 * height ** 1.2 * (0.65 + 0.35 * clouds(at))
    if (chance.uniform() < intervalMs / (isFleck ? 8000 : 40_000)) isFleck = !isFleck
    const share = 0.03 + 0.97 * openness + (isFleck && openness < 0.7 ? 0.3 : 0)
    return Math.min(65_534, Math.round(((open * Math.min(1, share)) / 1.2) * (1 + 0.002 * chance.normal())))
  })

  const warmth = chance.wander(3_600_000)
  const mean = chance.between(12, 16)
  const temperature = timeMs.map((at) => {
    const celsius = mean - (1.5 + 4 * openness) * Math.cos(dayPart(at) - 0.8) + 0.1 * warmth(at)
    return Math.round((celsius + 0.02 * chance.normal()) * 16) / 16
  })

  const breeze = chance.wander(1_200_000)
  const gate = intervalMs / 1000
  let gust = 0
  const wind = timeMs.map((at) => {
    const keep = Math.exp(-intervalMs / 6000)
    gust = keep * gust + Math.sqrt(1 - keep * keep) * chance.normal()
    const speed = (0.1 + 0.9 * openness) * (3 + 1.5 * breeze(at)) * Math.exp(0.35 * gust)
    return Math.floor((Math.max(0, speed - 0.3) / 0.66) * gate + chance.uniform()) / gate
  })

  return {
    timeMs,
    soil_ph: of('soil_ph', 'mV', ph, (signal) => 7 - (signal - 3) / 56.5),
    soil_moisture: of('soil_moisture', 'count', moisture, (signal) => (820 - signal) / 430),
    illuminance: of('illuminance', 'count', light, (signal) => signal * 1.2),
    soil_temperature: of('soil_temperature', 'Cel', temperature, (signal) => signal),
    wind_speed: of('wind_speed', 'Hz', wind, (hertz) => (hertz === 0 ? 0 : 0.3 + 0.66 * hertz)),
  }
}

export type Quadrat = ReturnType<typeof quadratOf>
export type Quantity = Exclude<keyof Quadrat, 'timeMs'>

/** What the hub would know around one quadrat of a transect; the first two start-ups lie before the series. */
export function transectAround(own: Quadrat, others: readonly Quadrat[], quantity: Quantity): Surroundings {
  return {
    solarElevationDegrees: (timeMs) => solarElevationDegrees(LATITUDE, LONGITUDE, timeMs),
    sameQuadrat: (other, timeMs, withinMs) => nearest(own[other as Quantity], timeMs, withinMs),
    sameBoardRestarted: (timeMs, withinMs) => timeMs - withinMs < START_MS,
    neighbours: (timeMs, withinMs) => {
      const found: Neighbour[] = []
      for (const [place, other] of others.entries()) {
        const value = nearest(other[quantity], timeMs, withinMs)
        if (value !== null) found.push({ quadrat: `Q${place + 2}`, distanceMetres: 2 * (place + 1), value })
      }
      return found
    },
  }
}

function nearest({ timeMs, value, expectedIntervalMs }: Series, at: number, withinMs: number): number | null {
  const place = Math.max(0, Math.min(timeMs.length - 1, Math.round((at - timeMs[0]!) / expectedIntervalMs!)))
  return Math.abs(timeMs[place]! - at) <= withinMs ? (value[place] ?? null) : null
}
