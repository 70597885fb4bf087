/** Where the rehearsal plays. The place and every name on it are made up. */
export const invented = {
  siteName: 'Thrubwick Hollow Way',
  siteNotes:
    'A made-up place for rehearsing: a sunken track that leaves a hazel wood and climbs a grazed bank.',
  transectId: 'T1',
  transectName: 'Hazel wood to grazed bank',
  lengthMetres: 20,
  markSpacingMetres: 0.5,
  bearingDegrees: 155,
  zones: [
    { name: 'shade', fromMetres: 0, toMetres: 7.5 },
    { name: 'edge', fromMetres: 7.5, toMetres: 12 },
    { name: 'open', fromMetres: 12, toMetres: 20 },
  ],
} as const

const plants = ['fern', 'moss', 'ivy', 'nettle', 'bramble', 'sorrel', 'clover', 'thyme'] as const

/** At every mark at most one quadrat. */
export const mostQuadrats = Math.floor(invented.lengthMetres / invented.markSpacingMetres)

export interface Spot {
  readonly index: number
  readonly quadrat: string
  readonly distanceMetres: number
}

/** Quadrats spread evenly along the transect, each on a mark. */
export function spotsAlong(count: number): Spot[] {
  return Array.from({ length: count }, (_, index) => {
    const even = ((index + 0.5) / count) * invented.lengthMetres
    const marks = Math.round(even / invented.markSpacingMetres)
    return { index, quadrat: `Q${index + 1}`, distanceMetres: marks * invented.markSpacingMetres }
  })
}

export function boardNameAt(index: number): string {
  return `${plants[index % plants.length]}-${index + 1}`
}
