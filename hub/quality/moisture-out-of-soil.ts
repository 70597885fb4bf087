import { z } from 'zod'
import { shown } from './number-text.ts'
import type { Finding, QualityTest, Series, Surroundings } from './quality-test.ts'
import { unbrokenFrom } from './unbroken.ts'

const MoistureOutOfSoilConfig = z.strictObject({
  /** relative wetness or m³/m³: at or below it the probe may be in air */
  airAtOrBelow: z.number(),
  /** in the same unit: so far above it shortly before or after, the probe was in soil */
  leapAtLeast: z.number().positive(),
  /** a longer stay in air is not told apart from dry soil */
  longestLiftMs: z.number().positive(),
  /** the light of the same quadrat leaps by this factor when somebody handles the kit */
  lightFactor: z.number().min(1),
  lightWithinMs: z.number().positive(),
})
export type MoistureOutOfSoilConfig = z.infer<typeof MoistureOutOfSoilConfig>

/** A lift may take a few readings on its way. */
const READINGS_OF_A_LEAP = 3

/**
 * The probe was pulled out: the reading falls at once to what it gives in air, or comes back from there. Suspect;
 * when the light of the same quadrat leaps at that moment, fail. Soil dries slowly and makes no such step.
 * @see common practice, no source
 */
export const moistureOutOfSoil: QualityTest<MoistureOutOfSoilConfig> = {
  name: 'moisture-out-of-soil',
  title: 'Pulled out',
  explain:
    'Soil cannot dry out between two readings. When moisture drops to the value of air just as the light flickers, somebody lifted the probe. Readings until it is back in the ground are of air.',
  source: 'common practice, no source',
  config: MoistureOutOfSoilConfig,
  defaults: {
    soil_moisture: {
      airAtOrBelow: 0.02,
      leapAtLeast: 0.08,
      longestLiftMs: 1_800_000,
      lightFactor: 1.5,
      lightWithinMs: 60_000,
    },
  },
  context: ({ longestLiftMs }) => ({ ms: longestLiftMs, readings: READINGS_OF_A_LEAP + 1 }),
  run(series, config, around) {
    const from = unbrokenFrom(series, 'value')
    const { value, timeMs } = series
    const found = value.map((each): Finding => (each === null ? 'not evaluated' : null))
    for (let start = 0; start < value.length; ) {
      if (!isAir(value[start]!, config)) {
        start += 1
        continue
      }
      let end = start
      while (end + 1 < value.length && from[end + 1] === from[start] && isAir(value[end + 1]!, config))
        end += 1
      const leaps = leapsAbout(series, from, start, end, config, around)
      for (let n = start; n <= end; n++) {
        const near = leaps.filter((leap) => Math.abs(timeMs[n]! - leap.timeMs) <= config.longestLiftMs)
        if (near.length > 0) found[n] = describe(value[n]!, near)
      }
      start = end + 1
    }
    return found
  },
}

interface Leap {
  timeMs: number
  hasLightLeap: boolean
}

function isAir(value: number | null, { airAtOrBelow }: MoistureOutOfSoilConfig): boolean {
  return value !== null && value <= airAtOrBelow
}

/** The leaps by which a stay in air began and ended, where they can be seen. */
function leapsAbout(
  series: Series,
  from: Int32Array,
  start: number,
  end: number,
  config: MoistureOutOfSoilConfig,
  around: Surroundings,
): Leap[] {
  const { timeMs, value } = series
  const isSoil = (n: number) => value[n]! >= value[start]! + config.leapAtLeast
  const leaps: Leap[] = []
  for (let n = start - 1; n >= from[start]! && n >= start - READINGS_OF_A_LEAP; n--)
    if (isSoil(n)) {
      leaps.push({
        timeMs: timeMs[start]!,
        hasLightLeap: lightLeaps(timeMs[n]!, timeMs[start]!, config, around),
      })
      break
    }
  for (let n = end + 1; n < value.length && from[n] === from[start] && n <= end + READINGS_OF_A_LEAP; n++)
    if (value[n]! >= value[end]! + config.leapAtLeast) {
      leaps.push({ timeMs: timeMs[end]!, hasLightLeap: lightLeaps(timeMs[end]!, timeMs[n]!, config, around) })
      break
    }
  return leaps
}

function lightLeaps(
  beforeMs: number,
  afterMs: number,
  { lightFactor, lightWithinMs }: MoistureOutOfSoilConfig,
  around: Surroundings,
): boolean {
  const before = around.sameQuadrat('illuminance', beforeMs, lightWithinMs)
  const after = around.sameQuadrat('illuminance', afterMs, lightWithinMs)
  if (before === null || after === null) return false
  return Math.max(before, after) > lightFactor * Math.min(before, after)
}

function describe(value: number, leaps: readonly Leap[]): Finding {
  const hasLightLeap = leaps.some((leap) => leap.hasLightLeap)
  const also = hasLightLeap ? ', as the light leapt' : ''
  return {
    test: 'moisture-out-of-soil',
    flag: hasLightLeap ? 4 : 3,
    text: `${shown(value)} is what the probe gives in air, reached in one leap${also}`,
  }
}
