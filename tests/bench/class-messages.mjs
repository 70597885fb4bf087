/** What a class sends in this benchmark: five signals a message, three of them calibrated. */
export const READINGS_PER_MESSAGE = 5
export const START_MS = Date.UTC(2026, 5, 12, 9)

/** The start-up that a filled store knows of; boards that send beside it have begun anew. */
const STARTUP = 7
export const NEXT_STARTUP = 8

export function packText(board, message, startup = STARTUP) {
  const ph = (84 + (message % 50) / 10).toFixed(1)
  const celsius = (11 + (message % 30) / 10).toFixed(1)
  return `[{"bn":"${board}/","n":"startup","v":${startup}},{"n":"message","v":${message}},{"n":"ph","u":"mV","v":${ph},"t":-0.5},{"n":"temperature","u":"Cel","v":${celsius},"t":-0.5},{"n":"wind","u":"Hz","v":${message % 9},"t":-0.5},{"n":"light","u":"count","v":${8000 + (message % 700)},"t":-0.5},{"n":"moisture","u":"count","v":${500 + (message % 80)},"t":-0.5}]`
}

export const boardNames = (count) => Array.from({ length: count }, (_, index) => `board-${index}`)

/** A survey in which pH (compensated), temperature and wind of every board are calibrated and placed. */
export function surveyOf(boards) {
  const kinds = [
    {
      quantity: 'soil_ph',
      channel: 'ph',
      more: { method: { way: 'direct', depthCentimetres: 5 }, temperatureChannel: 'temperature' },
      recipe: {
        kind: 'ph-electrode',
        points: [
          { bufferSet: 'technical', buffer: '7', temperatureCelsius: 15, millivolt: 6 },
          { bufferSet: 'technical', buffer: '4', temperatureCelsius: 15, millivolt: 176.3 },
        ],
      },
    },
    {
      quantity: 'soil_temperature',
      channel: 'temperature',
      more: { method: { depthCentimetres: 5 } },
      recipe: { kind: 'digital-temperature', offsetCelsius: -0.5 },
    },
    {
      quantity: 'wind_speed',
      channel: 'wind',
      more: { method: { heightMetres: 1.5 } },
      recipe: { kind: 'cup-anemometer', offsetMetresPerSecond: 0.3, slopeMetresPerSecondPerHertz: 0.66 },
    },
  ]
  const probes = boards.flatMap((board) =>
    kinds.map((kind) => ({ ...kind, board, id: `${board}-${kind.channel}` })),
  )
  const from = '2026-06-12T07:00:00Z'
  return {
    tussockSurvey: 1,
    id: 'bench',
    title: 'Bench',
    site: { name: 'Invented wood' },
    transects: [{ id: 'T1', lengthMetres: Math.max(100, boards.length) }],
    quadrats: boards.map((board, index) => ({ label: board, transect: 'T1', distanceMetres: index })),
    boards: boards.map((name) => ({ name })),
    probes: probes.map(({ id, quantity, board, channel, more }) => ({
      id,
      quantity,
      board,
      channel,
      ...more,
    })),
    placements: probes.map(({ id, board }) => ({ probe: id, quadrat: board, from })),
    calibrations: probes.map(({ id, recipe }) => ({ id: `${id}-1`, probe: id, validFrom: from, recipe })),
  }
}

/** Frames as a source hands them over, one second between two messages of a board. */
export function framesOf(boards, from, to) {
  const frames = []
  for (let message = from; message < to; message++)
    for (const board of boards)
      frames.push({
        source: 'mqtt:bench',
        arrivedMs: START_MS + message * 1000,
        format: 'pack',
        board,
        bytes: Buffer.from(packText(board, message)),
      })
  return frames
}
