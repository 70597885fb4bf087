import { fitCalibration, isRefusal } from '../../../calibration/index.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'

/** `2 h`, `1 day`, `180 days` */
export function daysText(days: number): string {
  if (days < 1 / 24) return `${Math.max(0, Math.round(days * 1440))} min`
  if (days < 1) return `${Math.round(days * 24)} h`
  const whole = Math.floor(days + 0.05)
  return whole === 1 ? '1 day' : `${whole} days`
}

/** Unit of the values a calibration gives: a relative wetness and a water content are not written alike. */
export function valueUnitOf(survey: Pick<SurveyFile, 'calibrations'>, calibration: string | null): string {
  const found = survey.calibrations.find(({ id }) => id === calibration)
  const fitted = found ? fitCalibration(found.recipe) : null
  return fitted === null || isRefusal(fitted) ? '' : fitted.unit
}
