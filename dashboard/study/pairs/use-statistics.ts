import type { StudyPair } from '../../../hub/contract/study.ts'
import { studyClient } from '../study-client.ts'
import { studyWish } from '../study-wish.ts'
import { useAsked } from '../use-asked.ts'
import { aboutPair, expectationsOf } from './expectations.ts'

/**
 * The statistics of a study. While the class is to predict first they come without results, until one expectation at
 * least is written; then a result is shown for what was predicted only.
 */
export function useStatistics(survey: string) {
  const wish = studyWish(survey).value
  const expectations = expectationsOf(survey).value
  const isHeldBack = wish.predictFirst && Object.keys(expectations).length === 0
  const asked = useAsked(survey, () => studyClient.statistics(survey, wish, { isHeldBack }), [
    wish.window,
    wish.hydrogenIons,
    isHeldBack,
  ])
  const isUnsaid = (about: string) => wish.predictFirst && expectations[about] === undefined
  return {
    ...asked,
    expectations,
    isUnsaid,
    isHidden: ({ factor, species }: StudyPair) => isUnsaid(aboutPair(factor, species)),
  }
}
