import { appraiseWith } from '../../.build/hub/intake/appraise.js'
import { readFrame } from '../../.build/hub/intake/read-frame.js'
import { SqliteWriter } from '../../.build/hub/store/sqlite-writer.js'
import { SurveyKeeper } from '../../.build/hub/survey/keep-surveys.js'
import { BareTable } from './bare-tables.mjs'
import { boardNames, framesOf, READINGS_PER_MESSAGE, START_MS, surveyOf } from './class-messages.mjs'
import { byTurns, bytesWritten, freshFolder, secondsOf } from './measuring.mjs'

const BOARDS = boardNames(50)
const COMMITS = 400
const READINGS = COMMITS * BOARDS.length * READINGS_PER_MESSAGE

/** One message of each of fifty boards a commit, decoded beforehand: what is measured is the store. */
const batches = Array.from({ length: COMMITS }, (_, commit) =>
  framesOf(BOARDS, commit, commit + 1).flatMap((frame) => readFrame(frame, () => undefined)),
)

function bareRows(commit) {
  return batches[commit].flatMap(({ signals }, board) =>
    signals.map(({ signal, timeMs }, place) => {
      const id = (commit * BOARDS.length + board) * 1024 + place
      return [board * READINGS_PER_MESSAGE + place, timeMs, id, signal, signal, 0.05, 1, 1, null]
    }),
  )
}

async function measured(open) {
  const { add, close } = open()
  const before = bytesWritten()
  const seconds = await secondsOf(() => {
    for (let commit = 0; commit < COMMITS; commit++) add(commit)
    close()
  })
  return { readings: READINGS / seconds, bytes: (bytesWritten() - before) / READINGS }
}

const throughWriter = (appraiseOf) => () =>
  measured(() => {
    const writer = new SqliteWriter(freshFolder())
    const keeper = new SurveyKeeper(writer, () => START_MS)
    keeper.save(surveyOf(BOARDS), 'bench')
    const appraise = appraiseOf(keeper)
    return {
      add: (commit) => {
        writer.commit(batches[commit], appraise)
        if (writer.isSealDue) writer.seal()
      },
      close: () => writer.close(),
    }
  })

const nothingKnown = { value: 1, uncertainty: 0.1, flag: 1, calibrationId: null, why: null }

const throughTable = (shape, hasMessages) => () =>
  measured(() => {
    const table = new BareTable(freshFolder(), shape)
    const rows = Array.from({ length: COMMITS }, (_, commit) => bareRows(commit))
    return {
      add: (commit) => table.add(rows[commit], hasMessages ? batches[commit] : []),
      close: () => table.close(),
    }
  })

/** Committing 50 messages of 5 readings at a time, with sealing, against one plain table. */
export async function measureWritePath(runs) {
  const { hub, unjudged, log, logAndMessages, keyed } = await byTurns(runs, {
    hub: throughWriter((keeper) => appraiseWith(keeper.timelines)),
    unjudged: throughWriter(() => () => nothingKnown),
    log: throughTable('log', false),
    logAndMessages: throughTable('log', true),
    keyed: throughTable('keyed', true),
  })
  const limits = [
    ['bare log, readings only', log],
    ['bare log, readings and messages', logAndMessages],
    ['straight into a keyed table, and messages', keyed],
  ]
  const row = (what, unit, number, key, ...aims) => ({
    what,
    unit,
    hub: number,
    limits: limits.map(([name, of], place) => [name, of[key], ...(aims[place] ? [aims[place]] : [])]),
  })
  return [
    row('commit of 50 messages × 5, sealed, calibrated', 'readings/s', hub.readings, 'readings', {
      atLeast: 0.6,
    }),
    row('the same, values given', 'readings/s', unjudged.readings, 'readings'),
    row('written to disk', 'bytes/reading', hub.bytes, 'bytes', undefined, undefined, { atMost: 0.1 }),
  ]
}
