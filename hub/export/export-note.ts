import { rfc3339 } from '../clock.ts'
import { countClean } from './clean-count.ts'
import { licenceFacts } from './licence.ts'
import type { ExportSource } from './study-export.ts'

/** README.txt of an export: what it is, of when and by what, what each file is, and what was left out. */
export function exportNote(
  source: ExportSource,
  what: string,
  files: readonly { path: string; text: string }[],
  leftOut: readonly string[],
): string {
  const { survey, version, madeAtMs, wish } = source
  return [
    `${survey.title}: ${what}`,
    '',
    `Survey ${survey.id}, at ${survey.site.name}.`,
    `Made ${rfc3339(madeAtMs)} by Tussock ${version}.`,
    wish.licence === undefined
      ? 'No licence has been given: ask the class before using it elsewhere.'
      : `Licence: ${licenceFacts[wish.licence].title} (${licenceFacts[wish.licence].url}).`,
    '',
    'Files',
    ...files.map(({ path, text }) => `  ${path}: ${text}`),
    '',
    'What was left out',
    ...[...leftOut, ...standingNotes(source)].map((line) => `  ${line}`),
    '',
  ].join('\r\n')
}

/** What every export leaves out, in sentences. */
export function standingNotes({ store, timelines, survey }: ExportSource): string[] {
  return [
    countClean(store, timelines, survey.id).sentence,
    ...(store.isUnsettled ? [UNSETTLED] : []),
    'Messages that could not be read are in the hub’s quarantine and not in this file.',
  ]
}

export const UNSETTLED =
  'The hub was still working values or flags out anew when this was written: make it again in a minute.'
