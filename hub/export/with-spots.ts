import type { Spot } from '../contract/spot.ts'
import type { SurveyFile } from '../contract/survey.ts'

/** A survey as its whole file: the spot readings kept beside it go into it, where there are any. */
export function withSpots(survey: SurveyFile, spots: readonly Spot[]): SurveyFile {
  const own = spots.filter((spot) => spot.survey === survey.id)
  return own.length === 0 ? survey : { ...survey, spots: own }
}
