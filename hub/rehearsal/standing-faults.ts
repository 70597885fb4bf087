import type { BoardPlan } from './board-plan.ts'
import type { FaultName } from './fault-names.ts'
import { type HabitatState, lightFraction } from './habitat.ts'
import type { ProbeTruths } from './probe-truths.ts'
import type { Chance } from './seeded-chance.ts'
import type { Sky } from './sky.ts'

/**
 * Faults that lie in a probe or in the weather and so change what is measured. They are functions of simulated
 * time alone, so that a run can be repeated to the digit.
 */
export interface StandingFaults {
  /** the board whose electrode has dried out, and the one whose clock has no battery */
  readonly dryBulbBoard: string | null
  readonly deadClockBoard: string | null
  /** the electrode as it answers in the soil today, whatever its calibration says */
  electrodeToday(plan: BoardPlan, probes: ProbeTruths, elapsedSeconds: number): ProbeTruths
  /** direct sun on an open sensor */
  stateToday(plan: BoardPlan, state: HabitatState, elapsedSeconds: number): HabitatState
  isInDirectSun(plan: BoardPlan, elapsedSeconds: number): boolean
}

export function standingFaults(
  faults: ReadonlySet<FaultName>,
  chance: Chance,
  sky: Sky,
  plans: readonly BoardPlan[],
  intervalSeconds: number,
): StandingFaults {
  const deadClockBoard = faults.has('dead-clock') ? (plans.find((plan) => plan.hasClock)?.name ?? null) : null
  const bulbs = plans.filter((plan) => !plan.hasClock)
  const dryBulbBoard = faults.has('dry-bulb') ? (chance.pick(bulbs, 'fault/dry-bulb')?.name ?? null) : null
  const dryShare = chance.between(0.6, 0.85, 'fault/dry-share')
  // the first burst comes early enough for a short run, whatever the interval
  const sunPeriodSeconds = Math.max(180, 24 * intervalSeconds)

  const isInDirectSun = (plan: BoardPlan, elapsedSeconds: number) => {
    if (!faults.has('saturated') || lightFraction(plan.spot.distanceMetres) < 0.9) return false
    const part = (elapsedSeconds / sunPeriodSeconds) % 1
    return part > 0.1 && part < 0.3 && sky.sunHeight(elapsedSeconds) > 0.3
  }

  return {
    dryBulbBoard,
    deadClockBoard,
    isInDirectSun,
    electrodeToday: (plan, probes, elapsedSeconds) => {
      if (plan.name !== dryBulbBoard || plan.isTwin) return probes
      const creepMillivolt = 14 * (1 - Math.exp(-elapsedSeconds / 400))
      return {
        ...probes,
        electrode: {
          offsetMillivolt: probes.electrode.offsetMillivolt + creepMillivolt,
          slopeShare: probes.electrode.slopeShare * dryShare,
        },
      }
    },
    stateToday: (plan, state, elapsedSeconds) =>
      isInDirectSun(plan, elapsedSeconds)
        ? { ...state, illuminanceLux: 68_000 + 0.4 * state.illuminanceLux }
        : state,
  }
}
