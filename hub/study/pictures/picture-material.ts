import type { SpeciesMeasure } from '../../contract/species.ts'
import type { StudyStatistics, StudySummary } from '../../contract/study.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import { HubError } from '../../errors.ts'
import { type Factor, factorsOf } from '../factors.ts'
import type { Study } from '../study.ts'
import { labelsOf } from '../study-statistics.ts'
import type { SummaryWish } from '../summary/summarise.ts'
import { MARK_SHAPES, type MarkShape } from './look.ts'
import { type SpeciesValues, speciesValues } from './species-values.ts'

export interface PictureWish extends SummaryWish {
  /** names of factors and species; all, or the commonest, when not given */
  factors?: readonly string[]
  species?: readonly string[]
  /** which tape; the one with the most quadrats when not given */
  transect?: string
  widthPx?: number
  /** of each correlation within its uncertainties; 0 or none leaves that out */
  redraws?: number
  /** ρ and p stay hidden */
  isVerdictHeldBack?: boolean
}

/** Everything pictures are drawn from. */
export interface PictureMaterial {
  survey: SurveyFile
  summary: StudySummary
  factors: Factor[]
  species: SpeciesValues[]
  measure: SpeciesMeasure | null
  statistics: StudyStatistics
}

/** @throws HubError `E_QUERY` naming what there is, when a factor, species or transect asked for is not there */
export async function pictureMaterial(study: Study, wish: PictureWish = {}): Promise<PictureMaterial> {
  const summary = study.summary(wish)
  const kept = await study.species()
  const factors = factorsOf(summary)
  const species = kept ? speciesValues(kept.table, labelsOf(summary, kept.table, kept.sheet.answers)) : []
  refuseUnknown(
    'factor',
    wish.factors,
    factors.map(({ name }) => name),
  )
  refuseUnknown(
    'species',
    wish.species,
    species.map(({ name }) => name),
  )
  refuseUnknown(
    'transect',
    wish.transect === undefined ? undefined : [wish.transect],
    study.survey.transects.map(({ id }) => id),
  )
  const statistics = await study.statistics({
    ...wish,
    ...(wish.species === undefined ? {} : { taxa: wish.species }),
  })
  return {
    survey: study.survey,
    summary,
    factors: factors.filter(({ name }) => wish.factors?.includes(name) ?? true),
    species: species.filter(({ name }) => wish.species?.includes(name) ?? true),
    measure: kept?.table.measure ?? null,
    statistics,
  }
}

function refuseUnknown(what: string, asked: readonly string[] | undefined, known: readonly string[]): void {
  const wrong = asked?.find((name) => !known.includes(name))
  if (wrong === undefined) return
  const there =
    known.length === 0 ? 'there is none' : `there is ${known.map((name) => `“${name}”`).join(', ')}`
  throw new HubError('E_QUERY', `There is no ${what} “${wrong}” in this survey: ${there}.`)
}

/** A mark for each zone, in the order of the quadrats; quadrats outside every zone have the first mark left. */
export function zoneMarks(summary: StudySummary): {
  shapeOf: (quadrat: string) => MarkShape
  key: { shape: MarkShape; text: string }[]
} {
  const zones = [...new Set(summary.quadrats.map(({ zone }) => zone ?? 'no zone'))]
  const shapes = new Map(zones.map((zone, index) => [zone, MARK_SHAPES[index % MARK_SHAPES.length]!]))
  const zoneOf = new Map(summary.quadrats.map(({ label, zone }) => [label, zone ?? 'no zone']))
  return {
    shapeOf: (quadrat) => shapes.get(zoneOf.get(quadrat) ?? 'no zone') ?? MARK_SHAPES[0]!,
    key: zones.map((zone) => ({ shape: shapes.get(zone)!, text: zone })),
  }
}
