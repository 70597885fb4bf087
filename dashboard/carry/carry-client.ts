import type { PlaceProbe } from '../../hub/contract/changes.ts'
import type { AddSpot, AmendSpot, SpotValue } from '../../hub/contract/spot.ts'
import { call, client, NoAnswer, ofSurvey, part } from '../client.ts'

interface Kept {
  done: true
  isNew: boolean
  spot: SpotValue
}

/** What this chapter asks the hub. */
export const carryClient = {
  async spots(survey: string): Promise<SpotValue[]> {
    const answer = await call<{ spots: SpotValue[] } | null>('GET', `${ofSurvey(survey)}/spots`)
    if (!Array.isArray(answer?.spots)) throw new NoAnswer()
    return answer.spots
  },

  /** Sent again, it is kept once. Another machine’s “all is well” (a hotspot’s log-in page) is no answer. */
  async keep(survey: string, spot: AddSpot): Promise<Kept> {
    const answer = await call<Kept | null>('POST', `${ofSurvey(survey)}/spots`, spot)
    if (answer?.done !== true || answer.spot?.spot?.id !== spot.id) throw new NoAnswer()
    return answer
  },

  amend: (survey: string, spot: string, wish: AmendSpot) =>
    call('POST', `${ofSurvey(survey)}/spots/${part(spot)}/amend`, wish),

  place: (survey: string, placing: PlaceProbe) => client.place(survey, placing),
  calibrate: client.calibrate,
}
