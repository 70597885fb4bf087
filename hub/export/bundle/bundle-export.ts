import { rfc3339 } from '../../clock.ts'
import { ArchiveLedger, sha256OfAll } from '../archive/archive-ledger.ts'
import { zipStream } from '../archive/zip-stream.ts'
import { downloadName } from '../download-name.ts'
import { exportNote } from '../export-note.ts'
import { type ExportSource, summaryWish } from '../study-export.ts'
import { withSpots } from '../with-spots.ts'
import { BUNDLE_PATHS, type BundleManifest, type BundleSheets } from './bundle-form.ts'
import { messageLines, readingLines } from './bundle-readings.ts'
import { bundleResults } from './bundle-results.ts'
import { messagesInOrder, type StoredMessage } from './messages-in-order.ts'
import { boardsOf, relatedSurveys } from './related-surveys.ts'

/** Everything that the numbers of a study can be worked out from again; `tussock verify` does so. */
export async function* bundlePieces(source: ExportSource): AsyncGenerator<Uint8Array> {
  yield* zipStream(filesOf(source), source.madeAtMs)
}

async function* filesOf(source: ExportSource) {
  const { store, timelines, survey, study, wish } = source
  const ledger = new ArchiveLedger()
  const file = (path: string, content: unknown) =>
    ledger.file(path, [typeof content === 'string' ? content : `${JSON.stringify(content, null, 2)}\n`])
  const others = relatedSurveys(survey, timelines.surveys)
  const boards = boardsOf([survey, ...others])

  yield file(BUNDLE_PATHS.readme, readmeOf(source))
  yield file(BUNDLE_PATHS.survey, withSpots(survey, timelines.spots))
  yield file(
    BUNDLE_PATHS.otherSurveys,
    others.map((other) => withSpots(other, timelines.spots)),
  )
  const counts = { messages: 0, readings: 0 }
  yield ledger.file(
    BUNDLE_PATHS.messages,
    messageLines(counted(messagesInOrder(store.database, boards), counts)),
  )
  yield ledger.file(BUNDLE_PATHS.readings, readingLines(messagesInOrder(store.database, boards)))

  const sheets = store.sheets(survey.id).toReversed()
  const listed: BundleSheets = sheets.map(({ id: _id, survey: _survey, bytes: _bytes, ...sheet }, index) => ({
    ...sheet,
    path: sheetPath(sheet.name, index),
  }))
  yield file(BUNDLE_PATHS.sheets, listed)
  for (const [index, { name, bytes }] of sheets.entries()) yield ledger.file(sheetPath(name, index), [bytes])

  for (const [path, result] of await bundleResults(study, summaryWish(wish))) yield file(path, result)
  const manifest: BundleManifest = {
    tussockBundle: 1,
    survey: survey.id,
    software: { name: 'Tussock', version: source.version },
    madeAt: rfc3339(source.madeAtMs),
    wish: { window: wish.window, hydrogenIons: wish.hydrogenIons },
    licence: wish.licence ?? null,
    isSettled: !store.isUnsettled,
    ...counts,
    files: [...ledger.lines],
    sha256OfAll: sha256OfAll(ledger.lines),
  }
  yield file(BUNDLE_PATHS.manifest, manifest)
}

function* counted(
  slices: Iterable<StoredMessage[]>,
  counts: { messages: number; readings: number },
): Generator<StoredMessage[]> {
  for (const slice of slices) {
    counts.messages += slice.length
    for (const { readings } of slice) counts.readings += readings.length
    yield slice
  }
}

/** The sheet’s own name, made safe; its ending says to a reader what it is. */
function sheetPath(name: string, index: number): string {
  const [, stem, ending] = /^(.*?)(?:\.([A-Za-z0-9]{1,8}))?$/s.exec(name) ?? []
  return `sheets/${index + 1}-${downloadName([stem ?? ''], ending ?? 'csv')}`
}

function readmeOf(source: ExportSource): string {
  const { unsealed } = source.store
  return exportNote(
    source,
    'a study bundle',
    [
      {
        path: BUNDLE_PATHS.survey,
        text: 'the survey, its spot readings, calibrations, decisions and limits',
      },
      { path: BUNDLE_PATHS.otherSurveys, text: 'surveys that share its boards or probes, if there are any' },
      { path: BUNDLE_PATHS.messages, text: 'every message of its boards, with its bytes in base64' },
      { path: BUNDLE_PATHS.readings, text: 'every signal, and what was made of it' },
      { path: BUNDLE_PATHS.sheets, text: 'the sheets of species and animals with their answers' },
      { path: 'sheets/', text: 'those sheets as they were given' },
      { path: 'results/', text: 'summary, join, statistics and catches' },
      {
        path: BUNDLE_PATHS.manifest,
        text: 'versions, and the SHA-256 of every file; “tussock verify” works everything out again and compares',
      },
    ],
    [
      ...(unsealed === 0
        ? []
        : [`${unsealed} readings of the last seconds, which no test of neighbours had seen yet.`]),
    ],
  )
}
