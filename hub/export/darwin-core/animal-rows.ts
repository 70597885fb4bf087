import { rfc3339 } from '../../clock.ts'
import type { ExposedCatch } from '../../contract/study.ts'
import { quantityWords } from '../quantity-words.ts'
import { significant } from '../significant.ts'
import type { MeasurementRow, OccurrenceRow } from './archive-terms.ts'
import { compactDate, type EventBook, identifier } from './event-book.ts'
import { spreadText, unitText } from './measurement-rows.ts'
import { rankSaid } from './taxon-rank.ts'

/**
 * Catches as events of their own below the survey: the same station, method and time is one event, whatever was in it,
 * and one that held nothing is an event without animals.
 * @param date  of the survey, for catches whose times were not written down
 */
export function animalRows(
  survey: string,
  site: string,
  catches: readonly ExposedCatch[],
  date: string,
  book: EventBook,
): { occurrences: OccurrenceRow[]; measurements: MeasurementRow[] } {
  const occurrences: OccurrenceRow[] = []
  const measurements: MeasurementRow[] = []
  const seen = new Map<string, number>()
  for (const caught of catches) {
    const { station, method, taxon, count } = caught.record
    const eventDate = datesOf(caught) ?? date
    const eventID = identifier(survey, 'catch', station, method, compactDate(eventDate))
    if (!book.has(eventID)) {
      book.add({ eventID, parentEventID: identifier(survey), eventDate, ...eventOf(caught, site) })
      measurements.push(...measurementsOf(caught, eventID))
    }
    if (taxon === null) continue
    const occurrenceID = `${eventID}:${encodeURIComponent(taxon)}`
    const before = seen.get(occurrenceID) ?? 0
    seen.set(occurrenceID, before + 1)
    occurrences.push({
      eventID,
      // the same animal written twice for one catch is two records
      occurrenceID: before === 0 ? occurrenceID : `${occurrenceID}:${before + 1}`,
      basisOfRecord: 'HumanObservation',
      occurrenceStatus: count > 0 ? 'present' : 'absent',
      scientificName: taxon,
      taxonRank: rankSaid(taxon),
      individualCount: count,
      organismQuantity: count,
      organismQuantityType: 'individuals',
    })
  }
  return { occurrences, measurements }
}

function datesOf({ fromMs, toMs }: ExposedCatch): string | null {
  if (toMs === null) return fromMs === null ? null : rfc3339(fromMs)
  return fromMs === null || fromMs >= toMs ? rfc3339(toMs) : `${rfc3339(fromMs)}/${rfc3339(toMs)}`
}

function eventOf({ record, hours, quadrat }: ExposedCatch, site: string) {
  const { method, station, effort } = record
  const efforts = [
    ...(hours === null ? [] : [`${significant(hours, 4)} hours`]),
    ...(effort.sweeps === undefined ? [] : [`${effort.sweeps} sweeps`]),
    ...(effort.traps === undefined ? [] : [`${effort.traps} traps`]),
  ]
  const [size, unit] = effort.sweeps === undefined ? [effort.traps ?? 1, 'trap'] : [effort.sweeps, 'sweep']
  return {
    eventType: 'Sample',
    samplingProtocol: method,
    sampleSizeValue: size,
    sampleSizeUnit: unit,
    samplingEffort: efforts.join(', '),
    locality: `${site}, ${quadrat === null ? `station ${station}` : `quadrat ${quadrat}`}`,
  }
}

function measurementsOf(caught: ExposedCatch, eventID: string): MeasurementRow[] {
  return caught.factors.map((factor) => ({
    eventID,
    measurementID: `${eventID}:${identifier(factor.quantity, factor.method)}`,
    measurementType: `${quantityWords(factor.quantity)} while the trap stood (mean)`,
    measurementValue: significant(factor.mean, 6),
    measurementUnit: unitText(factor.unit),
    measurementMethod: [`mean of ${factor.n} clean readings`, factor.method].filter(Boolean).join('; '),
    measurementRemarks: spreadText(factor),
  }))
}
