import { type Conditions, isRefusal } from '../../calibration/index.ts'
import type { FlagReason } from '../contract/flag.ts'
import { aggregateReasons, reasonsText } from '../quality/aggregate-flags.ts'
import { testClock } from '../quality/clock.ts'
import { testRange } from '../quality/range.ts'
import { testRemarks } from '../quality/remark.ts'
import type { Appraise, Worth } from '../store/store.ts'
import type { Timelines } from '../survey/timeline.ts'

/**
 * What a signal is worth: value and uncertainty by the calibration in force at its time, and its flag with the reasons.
 * Depends on nothing but its arguments and the timelines, so that it can be done again at any time.
 */
export function appraiseWith(timelines: Timelines): Appraise {
  return (board, { channel, unit, timeMs, signal }, { timeOrigin, temperatureOf }): Worth => {
    const segment = timelines.at(board, channel, timeMs)
    const clock = testClock(timeOrigin)
    if (!segment?.calibration) return worth(null, null, null, clock ? [clock] : [], false)
    const { probe, calibration } = segment
    const temperatureCelsius = probe.temperatureChannel
      ? temperatureOf(probe.temperatureChannel, timeMs)
      : null
    const conditions: Conditions = {}
    if (unit !== '') conditions.signalUnit = unit
    if (temperatureCelsius !== null) conditions.temperatureCelsius = temperatureCelsius
    const answer = calibration.fitted.valueAt(signal, conditions)
    if (isRefusal(answer)) {
      const refused: FlagReason = { test: 'signal', flag: 4, text: answer.message }
      return worth(null, null, calibration.id, clock ? [clock, refused] : [refused], true)
    }
    const reasons = testRemarks(answer.remarks)
    if (clock) reasons.push(clock)
    if (probe.temperatureChannel && temperatureCelsius === null)
      reasons.push(uncompensated(probe.temperatureChannel))
    const range = testRange(probe.quantity, answer.value)
    if (range) reasons.push(range)
    return worth(answer.value, answer.standardUncertainty, calibration.id, reasons, true)
  }
}

function uncompensated(channel: string): FlagReason {
  return {
    test: 'not-compensated',
    flag: 3,
    text: `no temperature from “${channel}” came in the same message and hour, so the temperature of the calibration was used`,
  }
}

function worth(
  value: number | null,
  uncertainty: number | null,
  calibrationId: string | null,
  reasons: readonly FlagReason[],
  isEvaluated: boolean,
): Worth {
  return {
    value,
    uncertainty,
    flag: aggregateReasons(reasons, isEvaluated),
    calibrationId,
    why: reasonsText(reasons),
  }
}
