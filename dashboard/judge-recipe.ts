import type { Recipe } from '../calibration/index.ts'

export interface RecipeJudged {
  /** why no curve can be drawn; null when one can */
  refusal: string | null
  /** what became of the calibration, to follow on “…’s calibration” */
  said: string
}

/** Whether a calibration would pass, before it is sent. The mathematics is fetched only when somebody calibrates. */
export async function judgeRecipe(recipe: Recipe): Promise<RecipeJudged> {
  const { fitCalibration, isRefusal } = await import('../calibration/index.ts')
  const fitted = fitCalibration(recipe)
  if (isRefusal(fitted)) return { refusal: fitted.message, said: '' }
  const advice = fitted.advice.map(({ text }) => text).join(' ')
  if (fitted.verdict === 'fail')
    return { refusal: null, said: `failed, so it is kept on record but is not in force. ${advice}`.trim() }
  return {
    refusal: null,
    said: fitted.verdict === 'warn' ? `passed with a warning. ${advice}` : 'passed and is in force.',
  }
}
