import { open } from 'node:fs/promises'
import { join } from 'node:path'
import { appraiseWith } from '../../intake/appraise.ts'
import { reviewWith } from '../../quality/review.ts'
import { SqliteWriter } from '../../store/sqlite-writer.ts'
import type { Arrival } from '../../store/store.ts'
import { SurveyKeeper } from '../../survey/keep-surveys.ts'
import { BUNDLE_PATHS, BundleMessage } from './bundle-form.ts'
import type { BundleContents } from './read-bundle.ts'
import { writtenReadings } from './written-readings.ts'

/** Messages stored in one transaction. */
const BATCH = 500
const ROWS = 4000

/**
 * Stores the signals of an unpacked bundle in a data folder of their own and works everything out again, by the same
 * ways as the hub: surveys, intake, recomputing, review, sheets.
 */
export async function replayBundle(bundle: BundleContents, from: string, folder: string): Promise<void> {
  const writer = new SqliteWriter(folder)
  try {
    const keeper = new SurveyKeeper(writer, () => Date.parse(bundle.manifest.madeAt))
    for (const survey of [...bundle.otherSurveys, bundle.survey]) keeper.save(survey, 'from a bundle')
    // times in a bundle are as its clock corrections left them: nothing is to be moved again
    while (writer.reclockSome(keeper.clockWork) !== null);
    const appraise = appraiseWith(keeper.timelines)
    const batch: Arrival[] = []
    const store = () => {
      writer.commit(batch.splice(0), appraise)
      if (writer.isSealDue) writer.seal()
    }
    for await (const arrival of arrivalsOf(from)) if (batch.push(arrival) >= BATCH) store()
    store()
    writer.seal()
    while (writer.recomputeSome(appraise, ROWS) !== null);
    const review = reviewWith(keeper.timelines)
    while (writer.reviewSome(review) !== null);
    for (const { path: _path, isRemoved, ...sheet } of bundle.sheets) {
      const id = writer.sheets.add({ ...sheet, survey: bundle.survey.id })
      if (isRemoved) writer.sheets.setRemoved(bundle.survey.id, id, true)
    }
  } finally {
    writer.close()
  }
}

/** The messages of a bundle, each with its signals; the two files are read side by side. */
async function* arrivalsOf(from: string): AsyncGenerator<Arrival> {
  const readings = writtenReadings(from)
  const messages = await open(join(from, BUNDLE_PATHS.messages))
  try {
    let next = await readings.next()
    for await (const line of messages.readLines()) {
      const message = BundleMessage.parse(JSON.parse(line))
      const signals: Arrival['signals'] = []
      for (; !next.done && Number(next.value.message) === message.id; next = await readings.next()) {
        const { channel, signal_unit: unit, time, signal } = next.value
        signals.push({ channel, unit, timeMs: Date.parse(time), signal: Number(signal) })
      }
      const { source, board, arrivedMs, startup, number, timeOrigin, shiftMs } = message
      yield {
        ...{ source, board, arrivedMs, startup, number, timeOrigin, shiftMs, signals },
        bytes: Buffer.from(message.bytes, 'base64'),
        about: null,
      }
    }
  } finally {
    await messages.close()
    await readings.return(undefined)
  }
}
