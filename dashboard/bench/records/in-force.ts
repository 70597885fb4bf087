import { fitCalibration, isRefusal, type Verdict } from '../../../calibration/index.ts'
import type { Calibration, SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { hubNowMs } from '../../hub-clock.ts'

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

/** What holds now, in a sentence. */
export function inForceWords(survey: SurveyFile, probe: string, verb: 'is' | 'stays'): string {
  const now = inForceAt(survey, probe, hubNowMs())
  if (now === null)
    return `No calibration ${verb === 'is' ? 'is in force' : 'was in force before, and none is after'}.`
  const since = momentText(Date.parse(now.validFrom), siteZone.value)
  return `${verb === 'is' ? 'In force' : 'The one before stays in force'}: ${now.id}, from ${since}.`
}
