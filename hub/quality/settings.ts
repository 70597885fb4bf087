import type { SurveyFile } from '../contract/survey.ts'
import type { QualityTest } from './quality-test.ts'

/** The limits of a test for a quantity in a survey: its own where it has any, otherwise the defaults; null: off. */
export function settingOf<Config>(
  test: QualityTest<Config>,
  survey: SurveyFile,
  quantity: string,
): Config | null {
  const own = survey.quality?.[test.name]?.[quantity]
  if (own === 'off') return null
  if (own !== undefined) return test.config.parse(own)
  return test.defaults[quantity] ?? null
}
