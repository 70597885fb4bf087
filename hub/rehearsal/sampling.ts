import type { BoardPlan } from './board-plan.ts'
import type { FaultName } from './fault-names.ts'
import { habitatAt } from './habitat.ts'
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
  /** in the quantity's own unit; for the battery, volts */
  readonly truth: number
  readonly quantity: string | null
  readonly fault: FaultName | null
}

export interface Sample {
  /** simulated epoch milliseconds of the measurement */
  readonly instantMs: number
  readonly records: readonly SampledRecord[]
}

const batteryEvery = 12

/** Measures: the same seed, board and moment since the start give the same numbers in every run. */
export function sampleBoard(
  chance: Chance,
  sky: Sky,
  faults: StandingFaults,
  plan: BoardPlan,
  startMs: number,
  instantMs: number,
  intervalSeconds: number,
): Sample {
  const sinceStartMs = Math.round(instantMs - startMs)
  const elapsed = sinceStartMs / 1000
  const state = faults.stateToday(plan, habitatAt(chance, sky, plan.spot, elapsed, intervalSeconds), elapsed)
  const probes = faults.electrodeToday(plan, probeTruthsAt(chance, plan.spot), elapsed)
  const signals = signalsOf(
    chance,
    plan.isTwin ? `${plan.name}/twin` : plan.name,
    probes,
    state,
    sinceStartMs,
    intervalSeconds,
  )
  const ofBoard = boardFault(plan, faults)
  const isDry = plan.name === faults.dryBulbBoard && !plan.isTwin
  const isFull = signals.lightCounts === fullScaleCounts

  const records: SampledRecord[] = [
    record('ph', 'mV', signals.phMillivolt, state.soilPh, 'soil_ph', isDry ? 'dry-bulb' : ofBoard),
    record('moisture', 'count', signals.moistureCounts, state.relativeWetness, 'soil_moisture', ofBoard),
    record(
      'light',
      'count',
      signals.lightCounts,
      state.illuminanceLux,
      'illuminance',
      isFull && !plan.isTwin ? 'saturated' : ofBoard,
    ),
    record(
      'temperature',
      'Cel',
      signals.temperatureCelsius,
      state.soilTemperatureCelsius,
      'soil_temperature',
      ofBoard,
    ),
    record('wind', 'Hz', signals.windHertz, state.windMetresPerSecond, 'wind_speed', ofBoard),
  ]
  if (plan.link !== 'columns' && Math.round(elapsed / intervalSeconds) % batteryEvery === 1) {
    const volts = Number(Math.max(3.2, 4.12 - elapsed / 400_000).toFixed(2))
    records.push(record('battery', 'V', volts, volts, null, ofBoard))
  }
  return { instantMs, records }
}

function boardFault(plan: BoardPlan, faults: StandingFaults): FaultName | null {
  if (plan.isTwin) return 'two-names'
  return plan.name === faults.deadClockBoard ? 'dead-clock' : null
}

function record(
  channel: string,
  unit: string,
  signal: number,
  truth: number,
  quantity: string | null,
  fault: FaultName | null,
): SampledRecord {
  return { channel, unit, signal, truth, quantity, fault }
}

/** The first moment of the grid start + k · interval that lies after `afterMs`. */
export function nextInstant(startMs: number, intervalMs: number, afterMs: number): number {
  return startMs + (Math.floor((afterMs - startMs) / intervalMs + 1e-6) + 1) * intervalMs
}
