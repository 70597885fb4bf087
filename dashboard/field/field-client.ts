import type { CheckTrap, SetTrap } from '../../hub/contract/changes.ts'
import type { Completeness, Departure, Leave } from '../../hub/contract/field.ts'
import type { TrapNow, TrapWatched, TrapWeather } from '../../hub/contract/trap.ts'
import { call, ofSurvey, part } from '../client.ts'

/** What the pages of the field ask the hub. */
export const fieldClient = {
  completeness: (survey: string) => call<Completeness>('GET', `${ofSurvey(survey)}/completeness`),
  /** @param at  quadrat the class is at; empty: not said */
  leave: (survey: string, at: string) =>
    call<Leave>('GET', `${ofSurvey(survey)}/leave${at === '' ? '' : `?at=${part(at)}`}`),
  departure: (survey: string) => call<Departure>('GET', `${ofSurvey(survey)}/departure`),
  watchedTraps: () => call<{ traps: TrapWatched[] }>('GET', '/api/traps'),
  traps: (survey: string) =>
    call<{ traps: TrapNow[]; weather: TrapWeather }>('GET', `${ofSurvey(survey)}/traps`),
  setTrap: (survey: string, trap: SetTrap) => call<{ id: string }>('POST', `${ofSurvey(survey)}/traps`, trap),
  checkTrap: (survey: string, trap: string, check: CheckTrap) =>
    call('POST', `${ofSurvey(survey)}/traps/${part(trap)}/check`, check),
  undoTrap: (survey: string, trap: string) =>
    call<{ undone: string }>('POST', `${ofSurvey(survey)}/traps/${part(trap)}/undo`),
}
