import { SurveyFile } from '../../../../hub/contract/survey.ts'

export const SURVEY = 'field-day'
/** 12 June 2026, 09:00 UTC: the class is at the tape */
export const BEGINS_MS = Date.UTC(2026, 5, 12, 9)
/** three hours later */
export const ENDS_MS = BEGINS_MS + 3 * 3_600_000
export const QUADRATS: readonly string[] = ['Q1', 'Q2', 'Q3', 'Q4', 'Q5', 'Q6', 'Q7', 'Q8']
export const PEG_INTERVAL_SECONDS = 10
export const METER_INTERVAL_SECONDS = 2
/** where the deep thermometer is wanted: it is carried from the first to the second in the middle of the day */
export const DEEP_AT = ['Q2', 'Q6'] as const

/** What is wanted at a quadrat, as the class agreed: minutes are those of one visit. */
export const WANTED = [
  {
    quantity: 'soil_temperature',
    method: { depthCentimetres: 5 },
    by: 'standing',
    replicates: 1,
    minutes: 3,
  },
  {
    quantity: 'soil_temperature',
    method: { depthCentimetres: 20 },
    by: 'standing',
    replicates: 1,
    minutes: 5,
    quadrats: [...DEEP_AT],
  },
  { quantity: 'soil_ph', method: {}, by: 'carried', replicates: 3, minutes: 6 },
  { quantity: 'soil_moisture', method: {}, by: 'carried', replicates: 1, minutes: 2 },
] as const

const beforeSchool = '2026-06-12T06:00:00Z'

/** Eight quadrats on a tape, nothing placed yet: that is said on the day. */
export function fieldDaySurvey(): SurveyFile {
  const thermometers = [...QUADRATS.map((_, index) => `${index + 1}`), 'deep']
  return SurveyFile.parse({
    tussockSurvey: 1,
    id: SURVEY,
    title: 'A day at an invented wood',
    site: { name: 'Invented wood', latitude: 51, longitude: 0, timeZone: 'Europe/London' },
    from: '2026-06-12',
    to: '2026-06-12',
    transects: [{ id: 'T1', lengthMetres: 30, bearingDegrees: 90 }],
    quadrats: QUADRATS.map((label, index) => ({ label, transect: 'T1', distanceMetres: 2 + 3.5 * index })),
    boards: [
      ...thermometers.map((name) => ({ name: `peg-${name}`, sampleIntervalSeconds: PEG_INTERVAL_SECONDS })),
      { name: 'satchel', sampleIntervalSeconds: METER_INTERVAL_SECONDS },
    ],
    probes: [
      ...thermometers.map((name) => ({
        id: `TEMP-${name}`,
        quantity: 'soil_temperature',
        method: { depthCentimetres: name === 'deep' ? 20 : 5 },
        board: `peg-${name}`,
        channel: 'temperature',
      })),
      {
        id: 'PH-1',
        quantity: 'soil_ph',
        method: { way: 'direct' },
        board: 'satchel',
        channel: 'ph',
        temperatureChannel: 'temperature',
        isCarried: true,
      },
      {
        id: 'TEMP-satchel',
        quantity: 'soil_temperature',
        method: { depthCentimetres: 7 },
        board: 'satchel',
        channel: 'temperature',
        isCarried: true,
      },
      {
        id: 'MOIST-1',
        quantity: 'soil_moisture',
        method: { way: 'relative' },
        board: 'by-hand',
        channel: 'MOIST-1',
        isTyped: true,
      },
    ],
    calibrations: [
      ...[...thermometers, 'satchel'].map((name) => ({
        id: `temp-${name}`,
        probe: `TEMP-${name}`,
        validFrom: beforeSchool,
        recipe: { kind: 'digital-temperature', offsetCelsius: 0 },
      })),
      {
        id: 'ph-1',
        probe: 'PH-1',
        validFrom: beforeSchool,
        recipe: {
          kind: 'ph-electrode',
          points: [
            { bufferSet: 'technical', buffer: '7', temperatureCelsius: 15, millivolt: 6 },
            { bufferSet: 'technical', buffer: '4', temperatureCelsius: 15, millivolt: 176.3 },
          ],
        },
      },
      {
        id: 'moist-1',
        probe: 'MOIST-1',
        validFrom: beforeSchool,
        recipe: { kind: 'already-a-value', unit: '/', standardUncertainty: 0.02 },
      },
    ],
    wanted: WANTED,
  })
}
