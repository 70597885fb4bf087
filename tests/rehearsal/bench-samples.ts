import { benchFaults } from '../../hub/rehearsal/bench-faults.ts'
import type { Channel, Medium } from '../../hub/rehearsal/bench-media.ts'
import { type BoardPlan, planBoards } from '../../hub/rehearsal/board-plan.ts'
import { ClassBench } from '../../hub/rehearsal/class-bench.ts'
import { faultsFrom } from '../../hub/rehearsal/fault-names.ts'
import { probeTruthsAt } from '../../hub/rehearsal/probe-truths.ts'
import { type SampledRecord, sampleBoard } from '../../hub/rehearsal/sampling.ts'
import { chanceOf } from '../../hub/rehearsal/seeded-chance.ts'
import { skyOf } from '../../hub/rehearsal/sky.ts'
import { standingFaults } from '../../hub/rehearsal/standing-faults.ts'

/** A class at its bench, without links: put probes, and measure at any second. */
export function benchOf(
  setting: { seed?: number; faults?: string; begins?: 'in the field' | 'on the bench' } = {},
) {
  const intervalSeconds = 1
  const chance = chanceOf(setting.seed ?? 21)
  const sky = skyOf(chance)
  const plans = planBoards(8, true)
  const faults = faultsFrom(setting.faults ?? '')
  const standing = standingFaults(faults, chance, sky, plans, intervalSeconds)
  const broken = benchFaults(faults, chance, plans, standing.dryBulbBoard)
  const bench = new ClassBench(plans, broken, setting.begins ?? 'in the field')

  function measure(plan: BoardPlan, second: number): Record<Channel, SampledRecord> {
    const startMs = 1_780_000_000_000
    const instantMs = startMs + second * 1000
    const sample = sampleBoard(chance, sky, standing, plan, startMs, instantMs, intervalSeconds, bench)
    return Object.fromEntries(sample.records.map((record) => [record.channel, record])) as Record<
      Channel,
      SampledRecord
    >
  }

  return {
    plans,
    dryBulbBoard: standing.dryBulbBoard,
    crackedBulbBoard: broken.crackedBulbBoard,
    put: (plan: BoardPlan, channel: Channel, medium: Medium, second: number) =>
      bench.put(plan.name, channel, medium, second),
    measure,
    /** the signals of so many seconds, the first at `from` */
    signals: (plan: BoardPlan, channel: Channel, from: number, count: number) =>
      Array.from({ length: count }, (_, at) => measure(plan, from + at)[channel].signal),
    /** how the probes of this board are, as the truth file's scenario says it */
    probesOf: (plan: BoardPlan) => probeTruthsAt(chance, plan.spot),
  }
}

export function meanOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length
}
