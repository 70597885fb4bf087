import type { SurveyFile } from '../../contract/survey.ts'
import { notebook, type Sentence, sentencesToParts } from './links.ts'
import { fixed } from './number-text.ts'
import type { ReportWish } from './report-facts.ts'
import type { Block, ReportSection } from './report-model.ts'
import { dayText } from './time-text.ts'

/** Blurred coordinates are rounded to this, about a kilometre: the school's own wood is not on the map. */
const BLUR_DECIMALS = 2
const EXACT_DECIMALS = 5

/** Where and when; the place only as exactly as was asked for. */
export function siteSection(survey: SurveyFile, coordinates: ReportWish['coordinates']): ReportSection {
  const href = notebook.survey(survey.id)
  const sentences: Sentence[] = [
    { text: `${survey.site.name}${coordinatesText(survey, coordinates)}.`, href },
    { text: datesText(survey), href },
    ...notesBesidesAim(survey).map((text) => ({ text, href })),
  ].filter(({ text }) => text !== '')
  return {
    title: 'Site and date',
    blocks: [{ kind: 'paragraph', parts: sentencesToParts(sentences) }],
    beginsPage: false,
  }
}

/** What the class wanted to find out: as it was given, or a line of the site's notes that begins with “Aim:”. */
export function aimSection(survey: SurveyFile, aim: string | null): ReportSection {
  const said =
    aim ??
    noteLines(survey)
      .find(isAim)
      ?.replace(/^aim:\s*/i, '') ??
    null
  const block: Block =
    said === null
      ? { kind: 'ruled', title: 'What we want to find out, and what we expect', lines: 4 }
      : { kind: 'paragraph', parts: [said] }
  return { title: 'Aim', blocks: [block], beginsPage: false }
}

function coordinatesText({ site }: SurveyFile, coordinates: ReportWish['coordinates']): string {
  const { latitude, longitude } = site
  if (coordinates === 'none' || latitude === undefined || longitude === undefined) return ''
  const decimals = coordinates === 'exact' ? EXACT_DECIMALS : BLUR_DECIMALS
  const side = (value: number, positive: string, negative: string) =>
    `${fixed(Math.abs(value), decimals)}° ${value < 0 ? negative : positive}`
  const rounded = coordinates === 'exact' ? '' : ', rounded to 0.01°'
  return ` (${side(latitude, 'N', 'S')}, ${side(longitude, 'E', 'W')}${rounded})`
}

/** “12 June 2026”, or a span of days; empty when the survey names none. */
export function daysText({ from, to }: SurveyFile): string {
  const [first, last] = [from ?? to, to ?? from]
  if (first === undefined || last === undefined) return ''
  return first === last ? dayText(first, 'UTC') : `${dayText(first, 'UTC')} to ${dayText(last, 'UTC')}`
}

function datesText(survey: SurveyFile): string {
  const days = daysText(survey)
  return days === '' ? '' : `Surveyed ${days}.`
}

function noteLines({ site }: SurveyFile): string[] {
  return (site.notes ?? '')
    .split('\n')
    .map((each) => each.trim())
    .filter((each) => each !== '')
}

const isAim = (text: string) => /^aim:/i.test(text)

function notesBesidesAim(survey: SurveyFile): string[] {
  return noteLines(survey).filter((text) => !isAim(text))
}
