/** Channels of each board, as `class-messages.mjs` sends them, with a calibration each: five quantities. */
const KINDS = [
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
    quantity: 'soil_moisture',
    channel: 'moisture',
    more: { method: { way: 'relative-wetness', depthCentimetres: 5 } },
    recipe: { kind: 'wetness-span', drySignal: 850, wetSignal: 420 },
  },
  {
    quantity: 'illuminance',
    channel: 'light',
    more: { method: { heightMetres: 1 } },
    recipe: { kind: 'light-counts', sensor: 'bh1750' },
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

export const SERIES_PER_BOARD = KINDS.length

/** A whole survey of five probes at the quadrat of each board. @param place  quadrat of a board, by its index */
function surveyWith({ id, title, boards, quadrats, place, ground }) {
  const probes = boards.flatMap((board, index) =>
    KINDS.map((kind) => ({ ...kind, board, quadrat: place(index), id: `${id}-${board}-${kind.channel}` })),
  )
  const from = '2020-01-01T00:00:00Z'
  return {
    tussockSurvey: 1,
    id,
    title,
    site: { name: 'Invented wood', timeZone: 'Europe/London' },
    ...ground,
    quadrats,
    boards: boards.map((name) => ({ name, sampleIntervalSeconds: 1 })),
    probes: probes.map(({ id: probe, quantity, board, channel, more }) => ({
      id: probe,
      quantity,
      board,
      channel,
      ...more,
    })),
    placements: probes.map(({ id: probe, quadrat }) => ({ probe, quadrat, from })),
    calibrations: probes.map(({ id: probe, recipe }) => ({
      id: `${probe}-1`,
      probe,
      validFrom: from,
      recipe,
    })),
  }
}

const ZONES = [
  { name: 'shade', fromMetres: 0, toMetres: 8 },
  { name: 'edge', fromMetres: 8, toMetres: 12 },
  { name: 'open', fromMetres: 12, toMetres: 20 },
]

/** A board at each quadrat along a tape. */
export function tapeSurvey(boards) {
  return surveyWith({
    id: 'tape',
    title: 'From shade to light',
    boards,
    ground: { transects: [{ id: 'T1', lengthMetres: 20, bearingDegrees: 90, zones: ZONES }] },
    quadrats: boards.map((_, index) => ({
      label: `Q${index + 1}`,
      transect: 'T1',
      distanceMetres: 1 + 2 * index,
    })),
    place: (index) => `Q${index + 1}`,
  })
}

/** All boards at one quadrat: its page draws every one of their series. */
export function crowdedSurvey(boards) {
  const survey = surveyWith({
    id: 'crowded',
    title: 'All at one quadrat',
    boards,
    ground: { transects: [{ id: 'T1', lengthMetres: 20, zones: ZONES }] },
    quadrats: [{ label: 'Q1', transect: 'T1', distanceMetres: 4 }],
    place: () => 'Q1',
  })
  // two probes that measure the same at one place are refused: each board stands at a depth and height of its own
  const apart = ({ method, ...probe }, index) => {
    const board = Math.floor(index / SERIES_PER_BOARD)
    const [depth, height] = [method.depthCentimetres, method.heightMetres]
    return {
      ...probe,
      method: {
        ...method,
        ...(depth === undefined ? {} : { depthCentimetres: depth + board }),
        ...(height === undefined ? {} : { heightMetres: height + board / 10 }),
      },
    }
  }
  return { ...survey, probes: survey.probes.map(apart) }
}

/** So many quadrats drawn at random in a plot, as a plan lays them; a board at each of the first. */
export function plotSurvey(boards, count) {
  const side = Math.ceil(Math.sqrt(count))
  const quadrats = Array.from({ length: count }, (_, index) => ({
    label: `Q${index + 1}`,
    plot: 'P1',
    xMetres: (index % side) * 3,
    yMetres: Math.floor(index / side) * 3,
  }))
  return surveyWith({
    id: 'plot',
    title: 'A thousand quadrats',
    boards,
    ground: {
      transects: [],
      plots: [{ id: 'P1', widthMetres: side * 3, heightMetres: side * 3, bearingDegrees: 20 }],
    },
    quadrats,
    place: (index) => `Q${index + 1}`,
  })
}
