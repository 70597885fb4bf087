import type {
  AddCalibration,
  AddCheck,
  AddDecision,
  PlaceProbe,
  PreviewWish,
  PutProbe,
  SetDrift,
} from '../hub/contract/changes.ts'
import type { CleanCount } from '../hub/contract/clean.ts'
import type { QualityTestListed } from '../hub/contract/quality.ts'
import type { ProbeReadiness, QuadratMove } from '../hub/contract/readiness.ts'
import type {
  ChannelNow,
  ChartMark,
  QuadratSeries,
  ReadingExplained,
  TimeSpan,
} from '../hub/contract/reading.ts'
import type { BoardNow, ErrorBody, HubNow, PortNow, Quarantined } from '../hub/contract/status.ts'
import type { QualitySettings, SurveyFile } from '../hub/contract/survey.ts'

export interface Directory {
  boards: BoardNow[]
  ports: PortNow[]
  channels: ChannelNow[]
}

/** What a quadrat's charts are drawn from. */
export interface QuadratRecord {
  series: QuadratSeries[]
  nights: TimeSpan[]
  marks: ChartMark[]
}

export interface SeriesWish {
  from: string
  to?: string
  quantity?: string
  steps: number
}

export interface PortFound {
  path: string
  maker?: string
  serialNumber?: string
  usbId?: string
}

export interface Fault {
  path: string
  message: string
}

/** The hub answered no; its message says what happened and what to do. */
export class Refusal extends Error {
  readonly code: string
  readonly faults: Fault[]
  constructor(code: string, message: string, faults: Fault[] = []) {
    super(message)
    this.name = 'Refusal'
    this.code = code
    this.faults = faults
  }
}

/** No answer at all. */
export class NoAnswer extends Refusal {
  constructor() {
    super(
      '',
      'The hub did not answer, so nothing was changed. Check that it runs and that you are on its Wi-Fi.',
    )
    this.name = 'NoAnswer'
  }
}

/** Asks the hub; `path` begins with /api. Each chapter has its own list of what it asks. */
export async function call<T>(method: string, path: string, body?: unknown): Promise<T> {
  const response = await answerOf(method, path, body)
  const answer: unknown = await response.json().catch(() => null)
  if (response.ok) return answer as T
  throw refusalOf(response, answer)
}

async function callForText(path: string): Promise<string> {
  const response = await answerOf('GET', path)
  if (!response.ok) throw refusalOf(response, await response.json().catch(() => null))
  return response.text().catch(() => {
    throw new NoAnswer()
  })
}

async function answerOf(method: string, path: string, body?: unknown): Promise<Response> {
  const sent = body === undefined ? {} : { headers: { 'content-type': 'application/json' } }
  try {
    return await fetch(path, {
      method,
      ...sent,
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      signal: AbortSignal.timeout(15_000),
    })
  } catch {
    throw new NoAnswer()
  }
}

/** What the hub said when it refused, in its own words. */
export function refusalOf(response: Response, answer: unknown): Refusal {
  const error = (answer as ErrorBody | null)?.error
  return new Refusal(
    error?.code ?? String(response.status),
    error?.message ?? response.statusText,
    error?.faults,
  )
}

export const part = encodeURIComponent
export const ofSurvey = (survey: string) => `/api/surveys/${part(survey)}`

export const client = {
  hub: () => call<HubNow>('GET', '/api/hub'),
  directory: () => call<Directory>('GET', '/api/directory'),
  survey: (id: string) => call<SurveyFile>('GET', ofSurvey(id)),
  saveSurvey: (id: string, file: unknown) => call('PUT', ofSurvey(id), file),
  place: (survey: string, placing: PlaceProbe) => call('POST', `${ofSurvey(survey)}/placements`, placing),
  calibrate: (survey: string, calibration: AddCalibration) =>
    call('POST', `${ofSurvey(survey)}/calibrations`, calibration),
  previewCalibration: (survey: string, wish: PreviewWish) =>
    call<{ moves: QuadratMove[] }>('POST', `${ofSurvey(survey)}/calibrations/preview`, wish),
  withdrawCalibration: (survey: string, calibration: string, reason: string) =>
    call('POST', `${ofSurvey(survey)}/calibrations/${part(calibration)}/withdraw`, { reason }),
  readiness: (survey: string) => call<{ probes: ProbeReadiness[] }>('GET', `${ofSurvey(survey)}/readiness`),
  keepCheck: (survey: string, check: AddCheck) => call('POST', `${ofSurvey(survey)}/checks`, check),
  setDrift: (survey: string, drift: SetDrift) => call('POST', `${ofSurvey(survey)}/drift`, drift),
  withdrawProbe: (survey: string, probe: string, reason: string | null) =>
    call('POST', `${ofSurvey(survey)}/probes/${part(probe)}/withdraw`, { reason }),
  putProbe: (wish: PutProbe) => call<{ text: string }>('POST', '/api/rehearsal/put', wish),
  undo: (survey: string) => call<{ undone: string }>('POST', `${ofSurvey(survey)}/undo`, {}),
  series: (survey: string, quadrat: string, wish: SeriesWish) =>
    call<QuadratRecord>(
      'GET',
      `${ofSurvey(survey)}/quadrats/${part(quadrat)}/series?${new URLSearchParams({ ...wish, steps: String(wish.steps) })}`,
    ),
  clean: (survey: string) => call<CleanCount>('GET', `${ofSurvey(survey)}/clean`),
  decide: (survey: string, decision: AddDecision) =>
    call<{ id: string }>('POST', `${ofSurvey(survey)}/decisions`, decision),
  takeBack: (survey: string, decision: string, by: string) =>
    call('POST', `${ofSurvey(survey)}/decisions/${part(decision)}/take-back`, by === '' ? {} : { by }),
  qualityTests: () => call<{ tests: QualityTestListed[] }>('GET', '/api/quality'),
  setQuality: (survey: string, settings: QualitySettings) =>
    call('PUT', `${ofSurvey(survey)}/quality`, settings),
  /** Rows of what is left out of the clean set up to a moment, as CSV. */
  leftOutRows: (survey: string, to: string) =>
    callForText(`${readingsCsvAddress(survey, 'excluded')}&to=${part(to)}`),
  reading: (id: number) => call<ReadingExplained>('GET', `/api/readings/${id}`),
  quarantine: (before?: number) =>
    call<{ quarantined: Quarantined[] }>(
      'GET',
      `/api/quarantine?limit=50${before === undefined ? '' : `&before=${before}`}`,
    ),
  ports: () => call<{ ports: PortFound[]; trouble: string | null }>('GET', '/api/ports'),
  openPort: (path: string, baudRate: number) => call('POST', '/api/ports', { path, baudRate }),
  closePort: (path: string) => call('DELETE', `/api/ports?path=${part(path)}`),
  ask: (board: string, words: string) => call('POST', `/api/boards/${part(board)}/ask`, { words }),
  makeBoardKey: (board: string) => call<{ key: string }>('POST', `/api/boards/${part(board)}/key`),
  removeBoardKey: (board: string) => call('DELETE', `/api/boards/${part(board)}/key`),
  startRehearsal: (faults: string[]) => call('POST', '/api/rehearsal', { faults }),
  endRehearsal: () => call('DELETE', '/api/rehearsal'),
}

/** Address of a download, for a plain link. */
export function readingsCsvAddress(
  survey: string,
  set: 'clean' | 'excluded' | 'all',
  quadrat?: string,
): string {
  const ofQuadrat = quadrat === undefined ? '' : `&quadrat=${part(quadrat)}`
  return `/api/export/readings.csv?survey=${part(survey)}&set=${set}${ofQuadrat}`
}

/** Address of a survey’s file, for a plain link. */
export function surveyFileAddress(survey: string): string {
  return ofSurvey(survey)
}

export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
