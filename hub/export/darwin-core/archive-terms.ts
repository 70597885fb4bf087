/** A file of the archive: its row type and its columns, each a term; the first column links to the event. */
export interface ArchiveTable {
  path: string
  rowType: string
  columns: readonly string[]
}

const DWC = 'http://rs.tdwg.org/dwc/terms/'

/** The address of a term: Darwin Core’s own, but for the licence, which is Dublin Core’s. */
export function termAddress(term: string): string {
  return term === 'license' ? 'http://purl.org/dc/terms/license' : `${DWC}${term}`
}

export const EVENT_TABLE = {
  path: 'event.csv',
  rowType: `${DWC}Event`,
  columns: [
    'eventID',
    'parentEventID',
    'eventType',
    'eventDate',
    'samplingProtocol',
    'sampleSizeValue',
    'sampleSizeUnit',
    'samplingEffort',
    'habitat',
    'eventRemarks',
    'locality',
    'decimalLatitude',
    'decimalLongitude',
    'geodeticDatum',
    'coordinateUncertaintyInMeters',
    'dataGeneralizations',
    'license',
  ],
} as const satisfies ArchiveTable

export const OCCURRENCE_TABLE = {
  path: 'occurrence.csv',
  rowType: `${DWC}Occurrence`,
  columns: [
    'eventID',
    'occurrenceID',
    'basisOfRecord',
    'occurrenceStatus',
    'scientificName',
    'taxonRank',
    'individualCount',
    'organismQuantity',
    'organismQuantityType',
    'occurrenceRemarks',
  ],
} as const satisfies ArchiveTable

export const MEASUREMENT_TABLE = {
  path: 'measurementorfact.csv',
  rowType: `${DWC}MeasurementOrFact`,
  columns: [
    'eventID',
    'measurementID',
    'measurementType',
    'measurementValue',
    'measurementUnit',
    'measurementAccuracy',
    'measurementMethod',
    'measurementDeterminedDate',
    'measurementRemarks',
  ],
} as const satisfies ArchiveTable

type Row<T extends ArchiveTable> = { eventID: string } & Partial<
  Record<T['columns'][number], string | number | null | undefined>
>
export type EventRow = Row<typeof EVENT_TABLE>
export type OccurrenceRow = Row<typeof OCCURRENCE_TABLE>
export type MeasurementRow = Row<typeof MEASUREMENT_TABLE>

export interface ArchiveRows {
  events: EventRow[]
  occurrences: OccurrenceRow[]
  measurements: MeasurementRow[]
  /** what is not in it, in sentences */
  leftOut: string[]
}
