import type {
  Enough,
  EnoughWish,
  KeepPlan,
  PlanChanges,
  PlanDrawn,
  PlanWish,
} from '../../hub/contract/plan-api.ts'
import type { SpotValue } from '../../hub/contract/spot.ts'
import type { HubAddress } from '../../hub/contract/status.ts'
import { call, ofSurvey } from '../client.ts'

/** What the planning pages ask the hub. */
export const planClient = {
  draw: (wish: PlanWish) => call<PlanDrawn>('POST', '/api/plan/draw', wish),
  enough: (wish: EnoughWish) => call<Enough>('POST', '/api/plan/enough', wish),
  preview: (survey: string, plan: KeepPlan) =>
    call<PlanChanges>('POST', `${ofSurvey(survey)}/plan/preview`, plan),
  keep: (survey: string, plan: KeepPlan) =>
    call<{ changes: string[] }>('POST', `${ofSurvey(survey)}/plan`, plan),
  spots: (survey: string) => call<{ spots: SpotValue[] }>('GET', `${ofSurvey(survey)}/spots`),
  addresses: () => call<{ addresses: HubAddress[] }>('GET', '/api/addresses'),
}
