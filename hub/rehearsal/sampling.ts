import type { Channel } from './bench-media.ts'
import { trueValue } from './bench-truth.ts'
import type { BoardPlan } from './board-plan.ts'
import { allInTheField, type Bench } from './class-bench.ts'
import type { FaultName } from './fault-names.ts'
import { habitatAt } from './habitat.ts'
import { mediumAt } from './immersion.ts'
import { levelsAt } from './probe-levels.ts'
import { probeTruthsAt } from './probe-truths.ts'
import type { Chance } from './seeded-chance.ts'
import { fullScaleCounts, signalsOf } from './signals.ts'
import type { Sky } from './sky.ts'
import type { StandingFaults } from './standing-faults.ts'

/** One signal, with what it should have said. */
export interface SampledRecord {
  readonly channel: string
  readonly unit: string
  /** exactly as printed on the wire */
  readonly signal: number
  /** in the quantity's own unit; null in a medium that has no true value; for the battery, volts */
  readonly truth: number | null
  readonly quantity: string | null
  /** null while the probe is on the bench */
  readonly quadrat: string | null
  readonly fault: FaultName | null
}

export interface Sample {
  /** simulated epoch milliseconds of the measurement */
  readonly instantMs: number
  readonly records: readonly SampledRecord[]
}

const batteryEvery = 12

/** Measures: the same seed, board and moment since the start, on the same bench, give the same numbers in every run. */
export function sampleBoard(
  chance: Chance,
  sky: Sky,
  faults: StandingFaults,
  plan: BoardPlan,
  startMs: number,
  instantMs: number,
  intervalSeconds: number,
  bench: Bench = allInTheField,
): Sample {
  const sinceStartMs = Math.round(instantMs - startMs)
  const elapsed = sinceStartMs / 1000
  const probes = probeTruthsAt(chance, plan.spot)
  const stateAt = (seconds: number) =>
    faults.stateToday(plan, habitatAt(chance, sky, plan.spot, seconds, intervalSeconds), seconds)
  const state = stateAt(elapsed)
  const isDry = plan.name === faults.dryBulbBoard && !plan.isTwin
  const inSoil = {
    stateAt: (seconds: number) => (seconds === elapsed ? state : stateAt(seconds)),
    electrodeAt: (seconds: number) => faults.electrodeToday(plan, probes, seconds).electrode,
    hasDryBulb: isDry,
  }
  const who = plan.isTwin ? `${plan.name}/twin` : plan.name
  const levels = levelsAt(chance, bench, plan, inSoil, elapsed)
  const signals = signalsOf(chance, who, probes, levels, sinceStartMs, intervalSeconds)

  const ofBoard = boardFault(plan, faults)
  const isFull = signals.lightCounts === fullScaleCounts && !plan.isTwin
  const record = (channel: Channel, unit: string, signal: number, quantity: string, fault = ofBoard) => {
    const medium = mediumAt(bench.immersions(plan, channel), elapsed)
    const truth = trueValue(channel, medium, () => state, bench.faults)
    const quadrat = medium.where === 'soil' ? plan.spot.quadrat : null
    return { channel, unit, signal, truth, quantity, quadrat, fault }
  }
  const records: SampledRecord[] = [
    record('ph', 'mV', signals.phMillivolt, 'soil_ph', electrodeFault()),
    record('moisture', 'count', signals.moistureCounts, 'soil_moisture'),
    record('light', 'count', signals.lightCounts, 'illuminance', isFull ? 'saturated' : ofBoard),
    record('temperature', 'Cel', signals.temperatureCelsius, 'soil_temperature'),
    record('wind', 'Hz', signals.windHertz, 'wind_speed'),
  ]
  if (plan.link !== 'columns' && Math.round(elapsed / intervalSeconds) % batteryEvery === 1) {
    const volts = Number(Math.max(3.2, 4.12 - elapsed / 400_000).toFixed(2))
    const { quadrat } = plan.spot
    records.push({
      channel: 'battery',
      unit: 'V',
      signal: volts,
      truth: volts,
      quantity: null,
      quadrat,
      fault: ofBoard,
    })
  }
  return { instantMs, records }

  function electrodeFault(): FaultName | null {
    if (plan.isTwin) return ofBoard
    if (plan.name === bench.faults.crackedBulbBoard) return 'cracked-bulb'
    if (isDry) return 'dry-bulb'
    const { where } = mediumAt(bench.immersions(plan, 'ph'), elapsed)
    return bench.faults.bottleFault(where) ?? ofBoard
  }
}

function boardFault(plan: BoardPlan, faults: StandingFaults): FaultName | null {
  if (plan.isTwin) return 'two-names'
  return plan.name === faults.deadClockBoard ? 'dead-clock' : null
}

/** The first moment of the grid start + k · interval that lies after `afterMs`. */
export function nextInstant(startMs: number, intervalMs: number, afterMs: number): number {
  return startMs + (Math.floor((afterMs - startMs) / intervalMs + 1e-6) + 1) * intervalMs
}
