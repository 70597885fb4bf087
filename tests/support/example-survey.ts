import { SurveyFile } from '../../hub/contract/survey.ts'

/** 09:00 UTC on the day of the example survey. */
export const nineOClock = Date.UTC(2026, 5, 12, 9)

/** A small survey: one transect, two quadrats, one board with a pH electrode, a thermometer and cups at Q1. */
export function exampleSurvey(): SurveyFile {
  return SurveyFile.parse({
    tussockSurvey: 1,
    id: 'example',
    title: 'Edge of an invented wood',
    site: { name: 'Invented wood', latitude: 51, longitude: 0, timeZone: 'Europe/London' },
    from: '2026-06-12',
    to: '2026-06-12',
    transects: [
      {
        id: 'T1',
        lengthMetres: 20,
        bearingDegrees: 90,
        zones: [{ name: 'shade', fromMetres: 0, toMetres: 6 }],
      },
    ],
    quadrats: [
      { label: 'Q1', transect: 'T1', distanceMetres: 2 },
      { label: 'Q2', transect: 'T1', distanceMetres: 12 },
    ],
    boards: [{ name: 'sedge-1', sampleIntervalSeconds: 2 }],
    probes: [
      {
        id: 'PH-1',
        quantity: 'soil_ph',
        method: { way: 'direct', depthCentimetres: 5 },
        board: 'sedge-1',
        channel: 'ph',
        temperatureChannel: 'temperature',
      },
      {
        id: 'TEMP-1',
        quantity: 'soil_temperature',
        method: { depthCentimetres: 5 },
        board: 'sedge-1',
        channel: 'temperature',
      },
      {
        id: 'WIND-1',
        quantity: 'wind_speed',
        method: { heightMetres: 1.5 },
        board: 'sedge-1',
        channel: 'wind',
      },
    ],
    placements: ['PH-1', 'TEMP-1', 'WIND-1'].map((probe) => ({
      probe,
      quadrat: 'Q1',
      from: '2026-06-12T08:00:00Z',
    })),
    calibrations: [
      {
        id: 'ph-cal-1',
        probe: 'PH-1',
        validFrom: '2026-06-12T07:00:00Z',
        recipe: {
          kind: 'ph-electrode',
          points: [
            { bufferSet: 'technical', buffer: '7', temperatureCelsius: 15, millivolt: 6.0 },
            { bufferSet: 'technical', buffer: '4', temperatureCelsius: 15, millivolt: 176.3 },
          ],
        },
      },
      {
        id: 'temp-cal-1',
        probe: 'TEMP-1',
        validFrom: '2026-06-12T07:00:00Z',
        recipe: { kind: 'digital-temperature', offsetCelsius: -0.5 },
      },
      {
        id: 'wind-cal-1',
        probe: 'WIND-1',
        validFrom: '2026-06-12T07:00:00Z',
        recipe: { kind: 'cup-anemometer', offsetMetresPerSecond: 0.3, slopeMetresPerSecondPerHertz: 0.66 },
      },
    ],
  })
}
