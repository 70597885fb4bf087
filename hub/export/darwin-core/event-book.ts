import { isInPlot } from '../../contract/quadrat-place.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import type { EventRow } from './archive-terms.ts'
import type { SiteCoordinates } from './site-coordinates.ts'

/** Parts of an identifier, with anything that could be mistaken for what is between them escaped. */
export function identifier(...parts: readonly string[]): string {
  return parts.map(encodeURIComponent).join(':')
}

/** A date, a time or an interval of them as part of an identifier: basic format of ISO 8601, `--` between two. */
export function compactDate(date: string): string {
  return date.replace(/[-:]|\.\d+/g, '').replace('/', '--')
}

/** The events of an archive: the survey, and below it one for each quadrat and date; each is made once. */
export class EventBook {
  readonly #survey: SurveyFile
  readonly #everywhere: Partial<EventRow>
  readonly #zoneOf: (label: string) => string | null
  readonly #events = new Map<string, EventRow>()
  readonly #efforts = new Map<string, string[]>()

  constructor(
    survey: SurveyFile,
    eventDate: string,
    coordinates: SiteCoordinates | null,
    license: string | undefined,
    zoneOf: (label: string) => string | null,
  ) {
    this.#survey = survey
    this.#everywhere = { ...coordinates, ...(license === undefined ? {} : { license }) }
    this.#zoneOf = zoneOf
    this.add({
      eventID: identifier(survey.id),
      eventType: 'Survey',
      eventDate,
      samplingProtocol: survey.quadrats.some(isInPlot) ? 'quadrats in a plot' : 'quadrats along a transect',
      sampleSizeValue: survey.quadrats.length,
      sampleSizeUnit: 'quadrat',
      eventRemarks: survey.title,
      locality: survey.site.name,
    })
  }

  /** @returns its id */
  add(event: EventRow): string {
    if (!this.#events.has(event.eventID)) this.#events.set(event.eventID, { ...event, ...this.#everywhere })
    return event.eventID
  }

  has(eventID: string): boolean {
    return this.#events.has(eventID)
  }

  /** The event of a quadrat on a date, made where it is not there yet; `effort` is said of it, once. */
  atQuadrat(label: string, eventDate: string, effort: string): string {
    const eventID = identifier(this.#survey.id, label, compactDate(eventDate))
    const side = this.#survey.quadrats.find((quadrat) => quadrat.label === label)?.sideMetres
    this.add({
      eventID,
      parentEventID: identifier(this.#survey.id),
      eventType: 'Sample',
      eventDate,
      samplingProtocol: 'quadrat',
      sampleSizeValue: side === undefined ? 1 : Number((side * side).toPrecision(6)),
      sampleSizeUnit: side === undefined ? 'quadrat' : 'square metre',
      habitat: this.#zoneOf(label),
      locality: `${this.#survey.site.name}, quadrat ${label}`,
    })
    const efforts = this.#efforts.get(eventID) ?? []
    if (!efforts.includes(effort)) this.#efforts.set(eventID, [...efforts, effort])
    return eventID
  }

  rows(): EventRow[] {
    return [...this.#events.values()].map((event) => {
      const efforts = this.#efforts.get(event.eventID)
      return efforts ? { ...event, samplingEffort: efforts.join(' | ') } : event
    })
  }
}
