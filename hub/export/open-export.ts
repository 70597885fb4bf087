import { setTimeout as pause } from 'node:timers/promises'
import type { ExportName, StudyExportQuery } from '../contract/export-api.ts'
import { HubError } from '../errors.ts'
import { Study } from '../study/study.ts'
import { Timelines } from '../survey/timeline.ts'
import { downloadName } from './download-name.ts'
import { studyExports } from './exports.ts'
import { StoreSnapshot } from './store-snapshot.ts'

/** How long a file that is to be worked out again waits for the hub to have finished working. */
const SETTLES_WITHIN_MS = 10_000
const LOOK_AGAIN_MS = 250

export interface OpenedExport {
  fileName: string
  mediaType: string
  pieces: AsyncGenerator<Uint8Array>
  /** lets go of the data; to be called however the reading ended, even if it never began */
  close(): void
}

/**
 * Begins one file of a survey, from the data folder alone, whether a hub is running on it or not.
 * @throws HubError `E_SURVEY_UNKNOWN`
 */
export async function openExport(
  folder: string,
  survey: string,
  name: ExportName,
  wish: StudyExportQuery,
  facts: { version: string; nowMs: () => number; settlesWithinMs?: number },
): Promise<OpenedExport> {
  const kind = studyExports[name]
  const pieces = await kind.load()
  const store = await settledSnapshot(folder, kind.isSealedOnly, facts.settlesWithinMs ?? SETTLES_WITHIN_MS)
  try {
    const timelines = new Timelines(store.surveys(), store.spots())
    const file = timelines.surveys.find(({ id }) => id === survey)
    if (!file) throw new HubError('E_SURVEY_UNKNOWN', `There is no survey "${survey}" here.`)
    const source = {
      ...{ store, timelines, survey: file, wish, version: facts.version, madeAtMs: facts.nowMs() },
      study: new Study(store, timelines, file),
    }
    return {
      fileName: downloadName([survey, name], kind.extension),
      mediaType: kind.mediaType,
      pieces: pieces(source),
      close: () => store.close(),
    }
  } catch (error) {
    store.close()
    throw error
  }
}

/** Where values are being worked out anew, waits a while for that to end; an export says so when it has not. */
async function settledSnapshot(
  folder: string,
  isSealedOnly: boolean,
  withinMs: number,
): Promise<StoreSnapshot> {
  for (let waitedMs = 0; ; waitedMs += LOOK_AGAIN_MS) {
    const store = new StoreSnapshot(folder, isSealedOnly)
    if (!isSealedOnly || !store.isUnsettled || waitedMs >= withinMs) return store
    store.close()
    await pause(LOOK_AGAIN_MS)
  }
}
