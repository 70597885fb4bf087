import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { inForceAt } from './in-force.ts'

/** What holds now, in a sentence. */
export function inForceWords(survey: SurveyFile, probe: string, verb: 'is' | 'stays'): string {
  const now = inForceAt(survey, probe, hubNowMs())
  if (now === null)
    return `No calibration ${verb === 'is' ? 'is in force' : 'was in force before, and none is after'}.`
  const since = momentText(Date.parse(now.validFrom), siteZone.value)
  return `${verb === 'is' ? 'In force' : 'The one before stays in force'}: ${now.id}, from ${since}.`
}
