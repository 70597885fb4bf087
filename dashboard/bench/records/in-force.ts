import { fitCalibration, isRefusal, type Verdict } from '../../../calibration/index.ts'
import type { Calibration, SurveyFile } from '../../../hub/contract/survey.ts'

/** A failed recipe is one that fits no curve, or a curve that should not be used. */
export function verdictOf({ recipe }: Pick<Calibration, 'recipe'>): Verdict {
  const fitted = fitCalibration(recipe)
  return isRefusal(fitted) ? 'fail' : fitted.verdict
}

/** All calibrations of a probe, the newest first. */
export function calibrationsOf(survey: SurveyFile, probe: string): Calibration[] {
  return survey.calibrations
    .filter((calibration) => calibration.probe === probe)
    .sort((one, other) => Date.parse(other.validFrom) - Date.parse(one.validFrom))
}

/** The one values are worked out by at a moment. */
export function inForceAt(survey: SurveyFile, probe: string, atMs: number): Calibration | null {
  return (
    calibrationsOf(survey, probe).find(
      (calibration) =>
        !calibration.withdrawn &&
        Date.parse(calibration.validFrom) <= atMs &&
        verdictOf(calibration) !== 'fail',
    ) ?? null
  )
}
