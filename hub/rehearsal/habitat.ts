import type { Spot } from './invented-site.ts'
import type { Chance } from './seeded-chance.ts'
import type { Sky } from './sky.ts'

/** What a perfect probe would read. */
export interface HabitatState {
  readonly soilPh: number
  /** 0 air-dry … 1 saturated */
  readonly relativeWetness: number
  readonly illuminanceLux: number
  readonly soilTemperatureCelsius: number
  readonly windMetresPerSecond: number
}

/** Share of the sky's light that reaches the ground: 3 % in the wood, all of it on the bank. */
export function lightFraction(distanceMetres: number): number {
  return 0.03 + 0.97 * openness(distanceMetres)
}

/** 0 inside the wood, 1 on the open bank, changing over a few metres about the edge. */
function openness(distanceMetres: number): number {
  return 1 / (1 + Math.exp(-(distanceMetres - 9.7) / 1.3))
}

/**
 * The true state of a spot. Light, moisture, temperature and wind all follow the shade, as they do in a real
 * hollow way; the pH climbs gently from leaf mould to the bank.
 * @param elapsedSeconds  since the start
 * @param gateSeconds  the anemometer counts this long, up to the moment: the wind is the mean over it
 */
export function habitatAt(
  chance: Chance,
  sky: Sky,
  spot: Spot,
  elapsedSeconds: number,
  gateSeconds: number,
): HabitatState {
  const open = openness(spot.distanceMetres)
  const patch = (name: string) => 2 * chance.uniform(`patch/${name}/${spot.quadrat}`) - 1
  const wander = (name: string, periodSeconds: number) =>
    2 * chance.smooth(`wander/${name}/${spot.quadrat}`, elapsedSeconds / periodSeconds) - 1
  const hours = elapsedSeconds / 3600

  const along = spot.distanceMetres / 20
  const soilPh = 5.2 + 1.4 * along * along * (3 - 2 * along) + 0.1 * patch('ph') + 0.01 * wander('ph', 900)

  const drying = (0.003 + 0.007 * open) * Math.min(hours, 24)
  const relativeWetness =
    0.77 - 0.4 * open + 0.04 * patch('wetness') - drying + 0.004 * wander('wetness', 600)

  const daily = Math.cos((2 * Math.PI * (sky.solarHour(elapsedSeconds) - 15.5)) / 24)
  const soilTemperatureCelsius =
    11.6 + 2.4 * open + (1.1 + 4.6 * open) * daily + 0.3 * patch('warmth') + 0.05 * wander('warmth', 800)

  return {
    soilPh,
    relativeWetness: Math.max(0.03, Math.min(0.97, relativeWetness)),
    illuminanceLux: sky.openLux(elapsedSeconds) * Math.min(1, lightFraction(spot.distanceMetres) + fleck()),
    soilTemperatureCelsius,
    windMetresPerSecond: meanWind(chance, open, elapsedSeconds, gateSeconds),
  }

  /** Sunflecks: for seconds at a time the sun finds a hole in the leaves, if there is a sun. */
  function fleck(): number {
    if (open > 0.6 || sky.clearness(elapsedSeconds) < 0.8) return 0
    const hole = chance.smooth(`fleck/${spot.quadrat}`, elapsedSeconds / 20)
    return 0.4 * Math.max(0, (hole - 0.75) / 0.25)
  }
}

/** The wood shelters: gusts arrive there as a breath. */
function meanWind(chance: Chance, open: number, elapsedSeconds: number, gateSeconds: number): number {
  const looks = 5
  let sum = 0
  for (let look = 0; look < looks; look += 1) {
    const at = elapsedSeconds - (gateSeconds * look) / looks
    const breeze = 1.2 + 2.2 * chance.smooth('wind/breeze', at / 240)
    const gust = 2.6 * chance.smooth('wind/gust', at / 9) ** 3
    sum += breeze + gust
  }
  return (0.07 + 0.93 * open ** 1.3) * (sum / looks)
}
