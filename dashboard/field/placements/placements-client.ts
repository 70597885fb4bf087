import type { AmendPlacement, PlaceProbe, SetProbeRole } from '../../../hub/contract/changes.ts'
import type { SpotValue } from '../../../hub/contract/spot.ts'
import { call, client, ofSurvey, part, type QuadratRecord } from '../../client.ts'

/** What the page of placements asks the hub. */
export const placementsClient = {
  place: (survey: string, placing: PlaceProbe) => client.place(survey, placing),
  amend: (survey: string, wish: AmendPlacement) => call('POST', `${ofSurvey(survey)}/placements/amend`, wish),
  role: (survey: string, probe: string, role: SetProbeRole) =>
    call('POST', `${ofSurvey(survey)}/probes/${part(probe)}/role`, role),
  spots: (survey: string, quadrat?: string) =>
    call<{ spots: SpotValue[] }>(
      'GET',
      `${ofSurvey(survey)}/spots${quadrat === undefined ? '' : `?quadrat=${part(quadrat)}`}`,
    ),
  /** Readings of one quantity at a quadrat within a span. */
  trace: (survey: string, quadrat: string, quantity: string, fromMs: number, toMs: number) =>
    call<QuadratRecord>(
      'GET',
      `${ofSurvey(survey)}/quadrats/${part(quadrat)}/series?${new URLSearchParams({
        from: new Date(fromMs).toISOString(),
        to: new Date(toMs).toISOString(),
        quantity,
        steps: '300',
      })}`,
    ),
}
