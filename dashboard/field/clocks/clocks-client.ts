import type { AddClockCorrection } from '../../../hub/contract/changes.ts'
import { call, client, ofSurvey, part } from '../../client.ts'

/** What the page of clocks asks the hub. */
export const clocksClient = {
  add: (survey: string, correction: AddClockCorrection) =>
    call<{ id: string }>('POST', `${ofSurvey(survey)}/clock-corrections`, correction),
  remove: (survey: string, correction: string) =>
    call('DELETE', `${ofSurvey(survey)}/clock-corrections/${part(correction)}`),
  reading: (id: number) => client.reading(id),
}
