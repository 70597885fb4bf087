import { ANY_CALIBRATION_INTERVAL_DAYS, quantityFacts } from '../../contract/quantity-facts.ts'

import type { Probe, SurveyFile } from '../../contract/survey.ts'
import type { Timelines } from '../timeline.ts'

const DAY_MS = 86_400_000

/** Whether a probe was calibrated at a moment: what it measured then is judged by that, however long ago it was. */
export function calibratedAt(
  survey: SurveyFile,
  timelines: Timelines,
  probe: Probe,
  atMs: number,
): 'in force' | 'due' | 'none' {
  const inForce = timelines.at(probe.board, probe.channel, atMs)?.calibration
  const calibration = survey.calibrations.find(({ id }) => id === inForce?.id)
  if (!calibration) return 'none'
  // whoever reads a meter by eye sees what it was told; it has no points that grow old
  if (probe.isTyped) return 'in force'
  const trustedDays =
    probe.calibrationIntervalDays ??
    quantityFacts(probe.quantity)?.calibrationIntervalDays ??
    ANY_CALIBRATION_INTERVAL_DAYS
  return (atMs - Date.parse(calibration.validFrom)) / DAY_MS > trustedDays ? 'due' : 'in force'
}
