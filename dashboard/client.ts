import type {
  AddCalibration,
  AddCheck,
  PlaceProbe,
  PreviewWish,
  PutProbe,
  SetDrift,
} from '../hub/contract/changes.ts'
import type { ProbeReadiness, QuadratMove } from '../hub/contract/readiness.ts'
import type { ChannelNow, QuadratSeries, ReadingExplained } from '../hub/contract/reading.ts'
import type { BoardNow, ErrorBody, HubNow, PortNow, Quarantined } from '../hub/contract/status.ts'
import type { SurveyFile } from '../hub/contract/survey.ts'

export interface Directory {
  boards: BoardNow[]
  ports: PortNow[]
  channels: ChannelNow[]
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

async function call<T>(method: string, path: string, body?: unknown): Promise<T> {
  const sent = body === undefined ? {} : { headers: { 'content-type': 'application/json' } }
  let response: Response
  try {
    response = await fetch(path, {
      method,
      ...sent,
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      signal: AbortSignal.timeout(15_000),
    })
  } catch {
    throw new NoAnswer()
  }
  const answer: unknown = await response.json().catch(() => null)
  if (response.ok) return answer as T
  const error = (answer as ErrorBody | null)?.error
  throw new Refusal(
    error?.code ?? String(response.status),
    error?.message ?? response.statusText,
    error?.faults,
  )
}

const part = encodeURIComponent
const ofSurvey = (survey: string) => `/api/surveys/${part(survey)}`

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
  series: (survey: string, quadrat: string, from: string, steps: number) =>
    call<{ series: QuadratSeries[] }>(
      'GET',
      `${ofSurvey(survey)}/quadrats/${part(quadrat)}/series?from=${part(from)}&steps=${steps}`,
    ),
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
  startRehearsal: (faults: string[]) => call('POST', '/api/rehearsal', { faults }),
  endRehearsal: () => call('DELETE', '/api/rehearsal'),
}

/** Address of a download, for a plain link. */
export function readingsCsvAddress(survey: string, set: 'clean' | 'all', quadrat?: string): string {
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
