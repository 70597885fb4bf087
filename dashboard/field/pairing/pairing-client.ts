import type { SetProbeRole } from '../../../hub/contract/changes.ts'
import type { Pairing } from '../../../hub/contract/pairing.ts'
import { call, ofSurvey, part } from '../../client.ts'

/** What the page of references asks the hub. */
export const pairingClient = {
  pairing: (survey: string) => call<Pairing>('GET', `${ofSurvey(survey)}/pairing`),
  role: (survey: string, probe: string, role: SetProbeRole) =>
    call('POST', `${ofSurvey(survey)}/probes/${part(probe)}/role`, role),
}
