/** Pages about the bench. */
export type BenchTask = 'calibrate' | 'check' | 'records'
export type BenchPlace =
  | { page: 'bench' }
  | { page: 'bench-probe'; survey: string; probe: string; task: BenchTask }
  | { page: 'bench-record'; survey: string; probe: string; calibration: string }

/** @param parts  of the address after `bench`, decoded */
export function benchPlaceOf(parts: readonly string[]): BenchPlace | null {
  const [survey, probe, third, calibration] = parts
  if (survey === undefined) return { page: 'bench' }
  if (probe === undefined) return null
  if (parts.length === 2) return { page: 'bench-probe', survey, probe, task: 'calibrate' }
  if (parts.length === 3 && (third === 'check' || third === 'records'))
    return { page: 'bench-probe', survey, probe, task: third }
  if (parts.length === 4 && third === 'record' && calibration !== undefined)
    return { page: 'bench-record', survey, probe, calibration }
  return null
}

const part = encodeURIComponent

export const benchPath = {
  sheet: '/bench',
  probe: (survey: string, probe: string, task: BenchTask = 'calibrate') =>
    `/bench/${part(survey)}/${part(probe)}${task === 'calibrate' ? '' : `/${task}`}`,
  record: (survey: string, probe: string, calibration: string) =>
    `/bench/${part(survey)}/${part(probe)}/record/${part(calibration)}`,
}
