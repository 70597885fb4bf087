/** A place on the tape with the quadrats that lie there, side by side. */
export interface Station {
  distanceMetres: number
  labels: string[]
}

/** Quadrats gathered by their distance along the tape, to the millimetre; rising. */
export function stationsOf(quadrats: readonly { label: string; distanceMetres: number }[]): Station[] {
  const byMillimetre = new Map<number, Station>()
  for (const { label, distanceMetres } of quadrats) {
    const key = Math.round(distanceMetres * 1000)
    const station = byMillimetre.get(key) ?? { distanceMetres, labels: [] }
    station.labels.push(label)
    byMillimetre.set(key, station)
  }
  return [...byMillimetre.values()].sort((one, other) => one.distanceMetres - other.distanceMetres)
}

/** The mean at a station of the quadrats that have a value; null when none has. */
export function meanAt(station: Station, of: (label: string) => number | undefined): number | null {
  const values = station.labels.flatMap((label) => of(label) ?? [])
  return values.length === 0 ? null : values.reduce((sum, each) => sum + each, 0) / values.length
}
