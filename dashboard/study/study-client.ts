import type { CleanCount } from '../../hub/contract/clean.ts'
import type { SpeciesAnswers } from '../../hub/contract/species.ts'
import type {
  ExposedCatch,
  StudyJoin,
  StudySheet,
  StudyStatistics,
  StudySummary,
} from '../../hub/contract/study.ts'
import { call, ofSurvey, part } from '../client.ts'
import { askForBytes } from './hub-bytes.ts'
import { namesText } from './names-text.ts'
import { speciesInUse } from './species/species-in-use.ts'
import type { StudyWish } from './study-wish.ts'

export interface StatisticsMore {
  /** how often a correlation is drawn anew within its uncertainties */
  redraws?: number
  factors?: readonly string[]
  taxa?: readonly string[]
  isHeldBack?: boolean
}

export interface GivenSheet {
  kind: StudySheet['kind']
  name: string
  bytes: Blob
}

/** What the pages of the study ask the hub. */
export const studyClient = {
  clean: (survey: string) => call<CleanCount>('GET', `${ofSurvey(survey)}/clean`),
  summary: (survey: string, wish: StudyWish) =>
    call<StudySummary>('GET', `${ofSurvey(survey)}/summary?${wished(wish)}`),
  sheets: async (survey: string) =>
    (await call<{ sheets: StudySheet[] }>('GET', `${ofSurvey(survey)}/sheets`)).sheets,
  addSheet: async (survey: string, { kind, name, bytes }: GivenSheet) => {
    const path = `${ofSurvey(survey)}/sheets?kind=${kind}&name=${part(name.slice(0, 200))}`
    const answer = (await (await askForBytes('POST', path, bytes)).json()) as { sheet: StudySheet }
    return answer.sheet
  },
  answerSheet: (survey: string, sheet: number, answers: SpeciesAnswers) =>
    call('PUT', `${ofSurvey(survey)}/sheets/${sheet}/answers`, answers),
  removeSheet: (survey: string, sheet: number, isRemoved: boolean) =>
    call('POST', `${ofSurvey(survey)}/sheets/${sheet}/removal`, { isRemoved }),
  /** A survey without a readable table of species is not asked: it could only refuse. */
  join: async (survey: string, wish: StudyWish): Promise<StudyJoin | 'no-species'> =>
    speciesInUse(await studyClient.sheets(survey)) === undefined
      ? 'no-species'
      : call<StudyJoin>('GET', `${ofSurvey(survey)}/join?${wished(wish)}`),
  statistics: (survey: string, wish: StudyWish, more: StatisticsMore = {}) => {
    const query = wished(wish)
    if (more.redraws !== undefined) query.set('redraws', String(more.redraws))
    if (more.factors) query.set('factors', namesText(more.factors))
    if (more.taxa) query.set('taxa', namesText(more.taxa))
    if (more.isHeldBack) query.set('heldBack', 'yes')
    return call<StudyStatistics>('GET', `${ofSurvey(survey)}/statistics?${query}`)
  },
  catches: async (survey: string) =>
    (await call<{ catches: ExposedCatch[] }>('GET', `${ofSurvey(survey)}/catches`)).catches,
  text: async (address: string) => (await askForBytes('GET', address)).text(),
  file: async (address: string) => (await askForBytes('GET', address)).blob(),
}

function wished({ window, hydrogenIons }: StudyWish): URLSearchParams {
  return new URLSearchParams({ window, hydrogenIons: hydrogenIons ? 'yes' : 'no' })
}
