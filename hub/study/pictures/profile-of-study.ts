import { isOnTransect, type TransectQuadrat } from '../../contract/quadrat-place.ts'

import type { Factor } from '../factors.ts'
import type { PictureMaterial } from './picture-material.ts'
import { nameWithUnit, shownUnit } from './shown-unit.ts'
import { commonest, measureWords, type SpeciesValues } from './species-values.ts'
import { meanAt, type Station, stationsOf } from './stations.ts'
import { ticksAround } from './ticks.ts'
import type { ProfilePicture } from './transect-profile.ts'

/** More kites than these make a page nobody reads; others are drawn when they are asked for. */
const KITES_AT_MOST = 6

/** The profile of one tape; or a sentence that says why there is none. */
export function profileOfStudy(
  { survey, factors, species, measure }: PictureMaterial,
  wish: { transect?: string; species?: readonly string[] },
): ProfilePicture | string {
  const byTransect = new Map<string, TransectQuadrat[]>()
  for (const quadrat of survey.quadrats.filter(isOnTransect))
    byTransect.set(quadrat.transect, [...(byTransect.get(quadrat.transect) ?? []), quadrat])
  const fullest = [...byTransect].sort(([, one], [, other]) => other.length - one.length)[0]
  const id = wish.transect ?? fullest?.[0]
  const quadrats = id === undefined ? undefined : byTransect.get(id)
  const transect = survey.transects.find((each) => each.id === id)
  if (!transect || !quadrats) return 'A profile needs quadrats on a transect; this survey has none there.'
  const stations = stationsOf(quadrats)
  const here = new Set(quadrats.map(({ label }) => label))
  const factorsHere = factors.filter(({ values }) => [...values.keys()].some((label) => here.has(label)))
  const chosen = wish.species === undefined ? commonest(species, KITES_AT_MOST) : [...species]
  if (factorsHere.length === 0 && chosen.length === 0)
    return 'There is nothing to draw yet: no clean values along this transect, and no species.'
  return {
    transect: transect.name ?? transect.id,
    lengthMetres: transect.lengthMetres,
    zones: transect.zones,
    stations,
    factors: factorsHere.map((factor) => stripOf(factor, stations)),
    kites: chosen.map(({ name, values }) => ({
      species: name,
      values: stations.map((station) => meanAt(station, (label) => values.get(label))),
    })),
    kiteScale: measure === null || chosen.length === 0 ? null : kiteScale(measure, chosen),
    notes: notesOf(stations, byTransect.size, species.length - chosen.length),
  }
}

function stripOf(
  { name, unit, values }: Factor,
  stations: readonly Station[],
): ProfilePicture['factors'][number] {
  const { factor: by } = shownUnit(unit)
  return {
    name: nameWithUnit(name, unit),
    points: stations.map((station) => {
      const found = station.labels.flatMap((label) => values.get(label) ?? [])
      const mean = meanAt(station, (label) => values.get(label)?.value)
      const [only] = found
      return {
        value: mean === null ? null : mean * by,
        expanded: found.length === 1 && only!.expanded !== null ? only!.expanded * by : null,
        singles: found.length < 2 ? [] : found.map(({ value }) => value * by),
      }
    }),
  }
}

function kiteScale(
  measure: NonNullable<PictureMaterial['measure']>,
  species: readonly SpeciesValues[],
): ProfilePicture['kiteScale'] {
  const { fullValue, full } = measureWords(measure)
  const largest = Math.max(1, ...species.flatMap(({ values }) => [...values.values()]))
  const value = fullValue ?? ticksAround(0, largest, 3).at(-1)!
  const meaning = fullValue === null ? `${value} ${full}` : full
  const text = fullValue === null ? String(value) : fullValue === 100 ? '100 %' : full
  return {
    value,
    text,
    meaning: `Kites: full width, the bar at the left, is ${meaning}, the same for all species; at zero a kite closes to its line. “?” and a break: not recorded.`,
  }
}

function notesOf(stations: readonly Station[], transects: number, speciesLeft: number): string[] {
  const isAveraged = stations.some(({ labels }) => labels.length > 1)
  return [
    'Upright bars are 95 % intervals. Points are joined between neighbours only; a break is a station without a clean value.',
    ...(isAveraged
      ? [
          'Where several quadrats lie at one distance their mean is drawn; small rings are the single quadrats.',
        ]
      : []),
    ...(transects > 1 ? [`One of ${transects} transects; the others have profiles of their own.`] : []),
    ...(speciesLeft > 0 ? [`The commonest species; ${speciesLeft} more are in the table.`] : []),
  ]
}
