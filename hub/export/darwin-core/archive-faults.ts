import type { ArchiveRows } from './archive-terms.ts'

/**
 * What a portal’s checker would refuse: an id that is missing or there twice, a row that belongs to no event, a parent
 * that is no event, an occurrence without a name. An archive with any of these is not written.
 */
export function archiveFaults({ events, occurrences, measurements }: ArchiveRows): string[] {
  const faults: string[] = []
  const ids = (what: string, list: readonly (string | number | null | undefined)[]) => {
    const seen = new Set<unknown>()
    for (const id of list) {
      if (!id) faults.push(`${what} without an id`)
      if (seen.has(id)) faults.push(`${what} ${id} twice`)
      seen.add(id)
    }
    return seen
  }
  const known = ids(
    'event',
    events.map(({ eventID }) => eventID),
  )
  ids(
    'occurrence',
    occurrences.map(({ occurrenceID }) => occurrenceID),
  )
  ids(
    'measurement',
    measurements.map(({ measurementID }) => measurementID),
  )
  for (const { eventID, parentEventID } of events)
    if (parentEventID && !known.has(parentEventID)) faults.push(`event ${eventID} below none`)
  for (const { eventID } of [...occurrences, ...measurements])
    if (!known.has(eventID)) faults.push(`a row of ${eventID}, which is no event`)
  for (const { occurrenceID, scientificName } of occurrences)
    if (!scientificName) faults.push(`occurrence ${occurrenceID} without a name`)
  return faults
}
