import { rfc3339 } from '../clock.ts'
import * as api from '../contract/api.ts'
import type { HubNow } from '../contract/status.ts'
import { errorCatalogue, isErrorCode } from '../errors.ts'
import { listPorts } from '../sources/list-ports.ts'
import { boardsNow, channelsNow } from './directory.ts'
import { showBytes } from './explain.ts'
import { healthOf } from './health.ts'
import { type HubApp, keepFor, type PageSide } from './page-side.ts'

const DIRECTORY_KEPT_MS = 100

/** The hub itself: state, boards, ports, quarantine, rehearsal. */
export function routeHub(app: HubApp, side: PageSide): void {
  app.openapi(api.getHub, (c) => c.json(hubNow(side), 200))

  app.openapi(api.getHealth, (c) => {
    const health = healthOf(side.state(), side.reader.folder)
    return health.isWell ? c.json(health, 200) : c.json(health, 503)
  })

  app.openapi(api.getAddresses, (c) => c.json({ addresses: side.addresses() }, 200))

  // thirty phones ask within the same moment: they are given the same answer
  const directory = keepFor(DIRECTORY_KEPT_MS, side.timelines, () => {
    const channels = channelsNow(side.reader, side.timelines(), side.nowMs())
    const boards = boardsNow(side.reader, side.timelines(), channels, side.state())
    return { boards, ports: side.state().ports, channels }
  })
  app.openapi(api.getDirectory, (c) => c.json(directory(), 200))

  app.openapi(api.getQuarantine, (c) => {
    const { before, limit } = c.req.valid('query')
    const quarantined = side.reader.quarantine(before ?? Number.MAX_SAFE_INTEGER, limit).map((row) => ({
      id: row.id,
      arrived: rfc3339(row.arrivedMs),
      source: row.source,
      board: row.board,
      code: row.code,
      message: row.message,
      remedy: isErrorCode(row.code) ? errorCatalogue[row.code].remedy : '',
      shown: showBytes(row.bytes, 200),
      length: row.bytes.length,
    }))
    return c.json({ quarantined }, 200)
  })

  app.openapi(api.postBackup, async (c) => {
    const { file, readings, messages, bytes } = await side.desk.makeBackup()
    return c.json({ done: true, file, readings, messages, bytes } as const, 200)
  })
  app.openapi(api.getPorts, async (c) => c.json(await listPorts(), 200))
  app.openapi(api.postPort, async (c) => {
    await side.desk.openPort(c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.deletePort, async (c) => {
    await side.desk.closePort(c.req.valid('query').path)
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.postAsk, async (c) => {
    await side.desk.askBoard(c.req.valid('param').board, c.req.valid('json').words)
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.postBoardKey, async (c) => {
    const key = await side.desk.makeBoardKey(c.req.valid('param').board)
    return c.json({ done: true, key } as const, 200)
  })
  app.openapi(api.deleteBoardKey, async (c) => {
    await side.desk.removeBoardKey(c.req.valid('param').board)
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.postRehearsal, async (c) => {
    await side.desk.startRehearsal(c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })
  app.openapi(api.deleteRehearsal, async (c) => {
    await side.desk.endRehearsal()
    return c.json({ done: true } as const, 200)
  })
}

function hubNow(side: PageSide): HubNow {
  const { broker, trouble, isRecomputing, recomputing, clockJumps, backup } = side.state()
  return {
    ...side.facts,
    nowMs: side.nowMs(),
    broker,
    trouble,
    isRecomputing,
    recomputing,
    clockJumps: [...clockJumps],
    backup,
    tallies: side.reader.tallies(),
    surveys: side.timelines().surveys.map(({ id, title }) => ({ id, title })),
    lastMessage: side.reader.lastMessageId(),
    changes: side.stream.changes,
  }
}
