import type { SurveyFile } from '../../hub/contract/survey.ts'

type Transect = SurveyFile['transects'][number]

/** A zone with its place along the drawing, px. */
export interface ZoneDrawn {
  name: string
  index: number
  fromMetres: number
  toMetres: number
  start: number
  end: number
}

export function drawnZones(transect: Transect, origin: number, pixelsPerMetre: number): ZoneDrawn[] {
  return transect.zones.map((zone, index) => ({
    ...zone,
    index,
    start: origin + zone.fromMetres * pixelsPerMetre,
    end: origin + Math.min(zone.toMetres, transect.lengthMetres) * pixelsPerMetre,
  }))
}

/** How a zone is shaded: the three of a light gradient by name, others in turn. */
export function zoneKind(zone: { name: string; index: number }): 'shade' | 'edge' | 'open' {
  const name = zone.name.toLowerCase()
  if (/shade|wood|forest|canopy|dark/.test(name)) return 'shade'
  if (/edge|hedge|scrub|margin|border/.test(name)) return 'edge'
  if (/open|grass|meadow|light|sun|field|heath/.test(name)) return 'open'
  return (['shade', 'edge', 'open'] as const)[zone.index % 3] ?? 'open'
}

export function zoneAt(transect: Transect, metres: number): string | null {
  return transect.zones.find((zone) => metres >= zone.fromMetres && metres <= zone.toMetres)?.name ?? null
}
