import type { BoardPlan } from './board-plan.ts'
import type { FaultName } from './fault-names.ts'
import type { Chance } from './seeded-chance.ts'
import { type BufferName, technicalBufferPh } from './technical-buffers.ts'

/** Faults that come to light when the class calibrates. */
export interface BenchFaults {
  /** the board whose electrode gives the same in whatever it is put */
  readonly crackedBulbBoard: string | null
  /** pH of what is in the bottle of this label */
  bottlePh(label: BufferName, celsius: number): number
  /** what is wrong with the bottle of this label */
  bottleFault(label: string): FaultName | null
}

export const noBenchFaults: BenchFaults = {
  crackedBulbBoard: null,
  bottlePh: technicalBufferPh,
  bottleFault: () => null,
}

/** Buffer 10 that stood open for weeks: it has taken up carbon dioxide from the air. */
const staleBuffer10Ph = 9.6

const swappedWith: Readonly<Partial<Record<BufferName, BufferName>>> = {
  'buffer-4': 'buffer-7',
  'buffer-7': 'buffer-4',
}

/** @param dryBulbBoard  an electrode does not dry out and crack at the same time */
export function benchFaults(
  faults: ReadonlySet<FaultName>,
  chance: Chance,
  plans: readonly BoardPlan[],
  dryBulbBoard: string | null,
): BenchFaults {
  const wetBulbs = plans.filter(({ name }) => name !== dryBulbBoard)
  const cracked = faults.has('cracked-bulb') ? chance.pick(wetBulbs, 'fault/cracked-bulb') : undefined
  const isSwapped = faults.has('swapped')
  const isStale = faults.has('stale-10')
  return {
    crackedBulbBoard: cracked?.name ?? null,
    bottlePh: (label, celsius) => {
      if (isStale && label === 'buffer-10') return staleBuffer10Ph
      return technicalBufferPh((isSwapped && swappedWith[label]) || label, celsius)
    },
    bottleFault: (label) => {
      if (isSwapped && label in swappedWith) return 'swapped'
      return isStale && label === 'buffer-10' ? 'stale-10' : null
    },
  }
}
