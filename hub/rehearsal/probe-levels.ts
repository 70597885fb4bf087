import { trueValue } from './bench-truth.ts'
import type { BoardPlan } from './board-plan.ts'
import type { Bench } from './class-bench.ts'
import type { HabitatState } from './habitat.ts'
import { type Approach, levelReached, mediumAt } from './immersion.ts'
import { electrodeMillivolt, type ProbeTruths } from './probe-truths.ts'
import type { Chance } from './seeded-chance.ts'

/** What the probes feel at a moment, before reading noise and the steps of a converter. */
export interface ProbeLevels {
  readonly electrodeMillivolt: number
  readonly electrodeUnrest: 'quiet' | 'wandering' | 'humming'
  readonly relativeWetness: number
  readonly illuminanceLux: number
  readonly celsius: number
  readonly windMetresPerSecond: number
}

/** The end of the amplifier's range, where an open electrode leaves it, mV. */
export const railMillivolt = 520

/** A cracked bulb lets the solution in: inside and outside are the same, and so is every answer. */
const crackedMillivolt = 3

/** A capacitive probe in air gives a little more than in the driest soil. */
const relativeWetnessInAir = -0.08

const settling = { electrode: 6, dryElectrode: 25, wetness: 2, thermometer: 20 } as const

/** The board's place at its quadrat, and its electrode, at any moment since the start. */
export interface BoardInSoil {
  stateAt(elapsedSeconds: number): HabitatState
  electrodeAt(elapsedSeconds: number): ProbeTruths['electrode']
  readonly hasDryBulb: boolean
}

export function levelsAt(
  chance: Chance,
  bench: Bench,
  plan: BoardPlan,
  inSoil: BoardInSoil,
  elapsedSeconds: number,
): ProbeLevels {
  const isCracked = plan.name === bench.faults.crackedBulbBoard && !plan.isTwin
  const reached = (channel: 'moisture' | 'light' | 'temperature' | 'wind', constant: number, otherwise = 0) =>
    levelReached(bench.immersions(plan, channel), elapsedSeconds, {
      timeConstantSeconds: () => constant,
      target: (medium, at) => trueValue(channel, medium, () => inSoil.stateAt(at), bench.faults) ?? otherwise,
    })

  const electrode: Approach = {
    timeConstantSeconds: ({ where }) => {
      if (where === 'air') return 0
      return inSoil.hasDryBulb ? settling.dryElectrode : settling.electrode
    },
    target: (medium, at) => {
      if (isCracked) return crackedMillivolt
      if (medium.where === 'air') return railMillivolt
      const ph = trueValue('ph', medium, () => inSoil.stateAt(at), bench.faults)
      // nothing in distilled water holds the electrode
      if (ph === null) return 20 + 50 * chance.smooth(`water/${plan.name}`, at / 40)
      const celsius = medium.celsius ?? inSoil.stateAt(at).soilTemperatureCelsius
      return electrodeMillivolt(inSoil.electrodeAt(at), ph, celsius)
    },
  }
  const electrodeIn = bench.immersions(plan, 'ph')
  return {
    electrodeMillivolt: levelReached(electrodeIn, elapsedSeconds, electrode),
    electrodeUnrest: isCracked ? 'quiet' : unrestIn(mediumAt(electrodeIn, elapsedSeconds).where),
    relativeWetness: reached('moisture', settling.wetness, relativeWetnessInAir),
    illuminanceLux: reached('light', 0),
    celsius: reached('temperature', settling.thermometer),
    windMetresPerSecond: reached('wind', 0),
  }
}

function unrestIn(where: string): ProbeLevels['electrodeUnrest'] {
  if (where === 'air') return 'humming'
  return where === 'water' ? 'wandering' : 'quiet'
}
