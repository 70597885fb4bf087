import { rfc3339 } from '../../clock.ts'
import type { StudySummary } from '../../contract/study.ts'
import { labelsOf } from '../../study/study-statistics.ts'
import { licenceFacts } from '../licence.ts'
import type { ExportSource } from '../study-export.ts'
import { animalRows } from './animal-rows.ts'
import type { ArchiveRows } from './archive-terms.ts'
import { EventBook } from './event-book.ts'
import { surveyDays } from './event-dates.ts'
import { measurementRows } from './measurement-rows.ts'
import { plantRows } from './plant-rows.ts'
import { siteCoordinates } from './site-coordinates.ts'

/** Everything of a study that a biodiversity portal takes: events, what occurred in them, what was measured. */
export async function archiveRows(
  { study, survey, wish, madeAtMs }: ExportSource,
  summary: StudySummary,
): Promise<ArchiveRows> {
  const species = await study.species()
  const date = surveyDays(survey, summary, species?.sheet.at.slice(0, 10) ?? rfc3339(madeAtMs).slice(0, 10))
  const zones = new Map(summary.quadrats.map(({ label, zone }) => [label, zone]))
  const coordinates = siteCoordinates(survey, wish.coordinates)
  const license = wish.licence && licenceFacts[wish.licence].url
  const book = new EventBook(survey, date, coordinates, license, (label) => zones.get(label) ?? null)
  const measured = measurementRows(survey, summary, book)
  const plants = species
    ? plantRows(survey.id, species.table, labelsOf(summary, species.table, species.sheet.answers), date, book)
    : { occurrences: [], measurements: [], leftOut: ['There is no table of species yet.'] }
  const animals = animalRows(survey.id, survey.site.name, await study.catches(), date, book)
  return {
    events: book.rows(),
    occurrences: [...plants.occurrences, ...animals.occurrences],
    measurements: [...measured, ...plants.measurements, ...animals.measurements],
    leftOut: [...plants.leftOut, whereNote(wish.coordinates, coordinates !== null)],
  }
}

function whereNote(wish: string, isKnown: boolean): string {
  if (!isKnown) return wish === 'none' ? 'Coordinates, as was asked.' : 'Coordinates: the survey has none.'
  return wish === 'blurred'
    ? 'Exact coordinates: they are rounded to 0.01 degrees, within about a kilometre.'
    : 'Nothing of the coordinates: they are exact, as was asked.'
}
