import { rfc3339 } from '../../clock.ts'
import type { StudySummary } from '../../contract/study.ts'
import { standingNotes } from '../export-note.ts'
import { licenceFacts } from '../licence.ts'
import type { ExportSource } from '../study-export.ts'

const STEP_WORDS: Readonly<Record<number, string>> = {
  60000: 'a minute',
  600000: 'ten minutes',
  3600000: 'an hour',
  86400000: 'a day',
}

/** The first sheet: what each sheet is, units, what clean means, and what to beware of. */
export function workbookNotes(
  source: ExportSource,
  { cautions, window }: StudySummary,
  hasSpecies: boolean,
  stepMs: number | null,
): string[] {
  const { survey, version, madeAtMs, wish } = source
  return [
    survey.title,
    `Survey ${survey.id}, at ${survey.site.name}. Made ${rfc3339(madeAtMs)} by Tussock ${version}.`,
    wish.licence === undefined
      ? 'No licence has been given: ask the class before using it elsewhere.'
      : `Licence: ${licenceFacts[wish.licence].title} (${licenceFacts[wish.licence].url}).`,
    '',
    'Sheets',
    'Summary: every quantity at every quadrat, one row for each way of measuring.',
    ...(hasSpecies
      ? [
          'Joined: factors beside species, one row a quadrat.',
          'Species: what the class recorded, cell by cell.',
        ]
      : ['Joined and Species are not here: there is no table of species yet.']),
    stepMs === null
      ? 'Readings: every clean reading.'
      : `Readings: there are too many for a sheet, so each row is the mean over ${STEP_WORDS[stepMs]}; the column “readings” says of how many. All of them are in “tussock export tables”.`,
    'Left out: how many readings are not clean, by reason.',
    'Calibrations: how signals became values.',
    '',
    'Units are SenML’s: pH, lx (lux), Cel (°C), m/s; / is a part of 1, so 0.31 is 31 %.',
    '± is half the width of the 95 % interval of the mean. A standard uncertainty (k = 1) is about half as wide.',
    'Clean: placed at a quadrat, at a trusted time, under a calibration that passed, not suspect, not left out by hand.',
    'A blank is not recorded. 0 is looked for and absent.',
    'Text that a spreadsheet would run as a formula has an apostrophe before it.',
    ...(window
      ? [`Summaries are only of ${window.from} to ${window.to}, when every standing probe was logging.`]
      : []),
    '',
    'Beware',
    ...(cautions.length === 0 ? ['Nothing in particular.'] : cautions.map(({ text }) => text)),
    '',
    'What was left out',
    ...standingNotes(source),
  ]
}
